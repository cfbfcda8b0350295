using System.Buffers.Binary;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Reports.Pictures;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

public sealed class ReviewPicturesTests : IDisposable
{
    private static readonly ReviewLog Log = ReviewRecorder.LogOf(FaultyPass.Fly(4).Envelopes)!;
    private static readonly SessionReview Review = Reviewer.Make(Log)!;
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-pictures-");

    [Fact]
    public void Six_pictures_are_written_with_something_in_them()
    {
        string folder = Path.Combine(_folder.FullName, "new", "folder");
        Assert.Null(Write(folder, Review));
        Assert.Equal(["aim.png", "level.png", "lines.png", "map.png", "reaction.png", "sky.png"], Directory.GetFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        foreach (string file in Directory.GetFiles(folder))
        {
            byte[] png = File.ReadAllBytes(file);
            Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], png[..4]);
            Assert.InRange(BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)), 1200, 1600);
            Assert.InRange(png.Length, 15_000, 800_000); // an empty sheet has less
        }
    }

    [Fact]
    public void What_nothing_is_known_of_is_left_out()
    {
        SessionReview bare = Review with { Course = [], Hand = Review.Hand with { Reactions = [] }, NeedDb = null };
        Assert.Null(Write(_folder.FullName, bare));
        Assert.Equal(["aim.png", "lines.png", "map.png", "sky.png"], _folder.GetFiles().Select(f => f.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_folder_that_cannot_be_made_is_one_sentence()
    {
        string file = Path.Combine(_folder.FullName, "file");
        File.WriteAllText(file, "");
        ParseError error = Write(file, Review)!;
        Assert.StartsWith($"{file}: the folder of the pictures cannot be made", error.ToString(), StringComparison.Ordinal);
        Assert.EndsWith("choose another with --pictures", error.ToString(), StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static ParseError? Write(string folder, SessionReview review) => ReviewPictures.Write(folder, review, Log.Settings, Log.BeamWidth, ScanLine.UsualHalfAngle);
}
