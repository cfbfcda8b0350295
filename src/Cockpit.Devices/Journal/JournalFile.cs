using System.Globalization;
using Cockpit.Devices.Files;
using Microsoft.Win32.SafeHandles;

namespace Cockpit.Devices.Journal;

/// <summary>A journal on a disk; others may read it while it grows, nobody else may write it.</summary>
/// <param name="path">Path of the file.</param>
public sealed class JournalFile(string path) : IJournalFile
{
    private const int MostAside = 20;

    private SafeFileHandle? _handle;
    private (ulong Device, ulong Inode)? _identity;
    private bool _made;

    /// <inheritdoc/>
    public string Path => path;

    /// <inheritdoc/>
    public JournalPlace Look()
    {
        if (FileStatus.Of(path, follow: false) is not { } lies)
        {
            return new JournalPlace(JournalPlaceKind.Nothing, 0);
        }

        bool ours = _made && lies.Kind == FileKind.Regular && (_identity is null || lies.Identity == _identity);
        return new JournalPlace(ours ? JournalPlaceKind.Ours : JournalPlaceKind.Other, lies.Length);
    }

    /// <inheritdoc/>
    public void Open()
    {
        Close();
        bool there = Look().Kind == JournalPlaceKind.Ours;
        if (!there && System.IO.Path.GetDirectoryName(path) is { Length: > 0 } folder)
        {
            Directory.CreateDirectory(folder);
        }

        _handle = File.OpenHandle(path, there ? FileMode.Open : FileMode.CreateNew, FileAccess.Write, FileShare.Read | FileShare.Delete);
        _made = true;

        // Some file systems number a file anew each time they are asked; there only presence and length tell.
        (ulong, ulong)? opened = FileStatus.Of(_handle).Identity;
        _identity = FileStatus.Of(path, follow: false)?.Identity == opened ? opened : null;
    }

    /// <inheritdoc/>
    public string MoveAside()
    {
        string folder = System.IO.Path.GetDirectoryName(path) ?? "";
        for (int number = 1; number <= MostAside; number++)
        {
            string name = string.Create(
                CultureInfo.InvariantCulture, $"{System.IO.Path.GetFileNameWithoutExtension(path)}.other-{number}{System.IO.Path.GetExtension(path)}");
            string aside = System.IO.Path.Combine(folder, name);
            if (FileStatus.Of(aside, follow: false) is null)
            {
                Move(aside);
                return name;
            }
        }

        throw new IOException($"another program puts its own file in this place again and again; {MostAside} of them are kept beside it");
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes, long offset) => RandomAccess.Write(Opened, bytes, offset);

    /// <inheritdoc/>
    public void Sync() => RandomAccess.FlushToDisk(Opened);

    /// <inheritdoc/>
    public void Close()
    {
        _handle?.Dispose();
        _handle = null;
    }

    /// <inheritdoc/>
    public void Dispose() => Close();

    private SafeFileHandle Opened => _handle ?? throw new IOException("the file is not open");

    private void Move(string aside)
    {
        if (FileStatus.Of(path, follow: false) is { Kind: FileKind.Folder })
        {
            Directory.Move(path, aside);
        }
        else
        {
            File.Move(path, aside, overwrite: false);
        }
    }
}
