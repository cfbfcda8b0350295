using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Cockpit.Benchmarks;

/// <summary>How large the source is: files, lines, and how long its methods are, by the compiler's own parser.</summary>
internal static class SourceSize
{
    private const int LongMethod = 30;

    internal static void Print(TextWriter output, string folder)
    {
        string[] files = [.. Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories).Where(IsWritten)];
        int[] lines = [.. files.Select(file => File.ReadLines(file).Count()).Order()];
        int[] methods = [.. files.SelectMany(MethodLengths).Order()];
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{folder}: {files.Length} files, {lines.Sum()} lines"));
        output.WriteLine(Row("lines of a file", lines));
        output.WriteLine(Row("lines of a method", methods));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"methods over {LongMethod} lines: {methods.Count(length => length > LongMethod)} of {methods.Length}"));
    }

    private static bool IsWritten(string file) =>
        !file.Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj");

    /// <summary>From the line of the first word of a method, comments and attributes aside, to that of its end.</summary>
    private static IEnumerable<int> MethodLengths(string file)
    {
        SyntaxNode root = CSharpSyntaxTree.ParseText(File.ReadAllText(file)).GetRoot();
        foreach (SyntaxNode node in root.DescendantNodes().Where(node => node is BaseMethodDeclarationSyntax or LocalFunctionStatementSyntax))
        {
            SyntaxToken first = node.ChildTokens().First();
            int from = node.SyntaxTree.GetLineSpan(first.Span).StartLinePosition.Line;
            yield return node.GetLocation().GetLineSpan().EndLinePosition.Line - from + 1;
        }
    }

    private static string Row(string what, int[] sorted) => string.Create(
        CultureInfo.InvariantCulture,
        $"{what}: median {At(sorted, 0.5)}, 90 % {At(sorted, 0.9)}, longest {(sorted.Length > 0 ? sorted[^1] : 0)}");

    private static int At(int[] sorted, double share) => sorted.Length > 0 ? sorted[(int)Math.Min(share * sorted.Length, sorted.Length - 1)] : 0;
}
