using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

/// <summary>Searches the passes of many satellites and judges them on all cores, slice of time by slice, so that a list of any length takes bounded memory.</summary>
/// <remarks>The searches go on from slice to slice, so the passes are the same to the bit however the span is cut.</remarks>
internal sealed class PassStream
{
    /// <summary>Most passes that are held at once; with them the program stays below 400 MB.</summary>
    public const int MostHeld = 250_000;

    // A satellite comes about six times a day, so a slice holds some 15,000 passes.
    private const double SatelliteHours = 60_000.0;

    private readonly Search[] _searches;
    private readonly PassQuestion _question;
    private readonly VerdictSettings _settings;
    private readonly int _slices;
    private readonly int _most;
    private ImmutableArray<PassVerdict> _held = [];
    private int _told;
    private int _slice;
    private int _done;

    /// <summary>Prepares the searches.</summary>
    /// <param name="satellites">The satellites.</param>
    /// <param name="question">What is looked for.</param>
    /// <param name="settings">Station, dish, service.</param>
    /// <param name="links">What is received of which satellite; null = of all what the settings say.</param>
    /// <param name="slices">How many slices the span is cut into; null = as many as the satellites need.</param>
    /// <param name="most">Most passes that are held at once.</param>
    public PassStream(ImmutableArray<Sgp4> satellites, PassQuestion question, VerdictSettings settings, SatelliteLinks? links = null, int? slices = null, int most = MostHeld)
    {
        _question = question;
        _settings = settings;
        _most = most;
        _slices = slices ?? Math.Max(1, (int)Math.Ceiling(satellites.Length * (question.To - question.From).TotalHours / SatelliteHours));
        Angle above = question.Geometric(question.Above);
        HorizonMask? horizon = question.Horizon is { } seen
            ? new HorizonMask(seen.Points.Select(p => p with { Elevation = question.Geometric(p.Elevation) }))
            : null;
        _searches = [.. satellites.Select(satellite => new Search(satellite, question, links is null ? settings : settings with { Link = links.Of(satellite.Elements) }, above, horizon))];
    }

    /// <summary>What is looked for.</summary>
    public PassQuestion Question => _question;

    /// <summary>Whether all slices were told.</summary>
    public bool IsDone => _slice == _slices;

    /// <summary>The passes that are complete with the next slice, by time of rise, then by catalogue number; all that clash with one are known by then.</summary>
    /// <param name="finished">Told the number of satellites that are done after each one, from any thread.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The verdicts, or one sentence why too many are under way at once.</returns>
    public Parsed<ImmutableArray<PassVerdict>> Next(Action<int> finished, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(finished);
        _slice++;
        DateTimeOffset end = IsDone ? DateTimeOffset.MaxValue : _question.From + ((_question.To - _question.From) * ((double)_slice / _slices));
        var found = new PassVerdict[_searches.Length][];
        int passes = _held.Length;
        ParallelLoopResult result = Parallel.For(0, _searches.Length, new ParallelOptions { CancellationToken = cancellation }, (k, loop) =>
        {
            found[k] = [.. _searches[k].Until(end)];
            if (Interlocked.Add(ref passes, found[k].Length) > _most)
            {
                loop.Stop();
                return;
            }

            finished(Interlocked.Increment(ref _done) / _slices);
        });
        return result.IsCompleted
            ? Told([.. _held, .. found.SelectMany(one => one).OrderBy(one => one.Pass.Aos.Utc).ThenBy(one => one.Candidate.CatalogNumber)], end)
            : TooMany(_most);
    }

    /// <summary>The sentence for more passes than are held.</summary>
    public ParseError TooMany(int most) => new("--for", 0, 0, FormattableString.Invariant(
        $"these {_searches.Length} satellites have more than {most} passes in this span; make --for shorter or --above higher, or choose with --satellite"));

    /// <summary>Takes those from the front that nothing later can clash with; keeps those that may still clash with what comes.</summary>
    private ImmutableArray<PassVerdict> Told(ImmutableArray<PassVerdict> known, DateTimeOffset end)
    {
        ImmutableArray<PassVerdict> named = PassJudge.WithClashes(known, _settings.TurnAround);
        int until = _told;
        while (until < known.Length && IsFree(known[until], end))
        {
            until++;
        }

        ImmutableArray<PassVerdict> told = named[_told..until];
        DateTimeOffset next = until < known.Length ? known[until].Pass.Aos.Utc : end;
        PassVerdict[] kept = [.. known[..until].Where(verdict => !IsFree(verdict, next))];
        _held = [.. kept, .. known[until..]];
        _told = kept.Length;
        return told;
    }

    /// <summary>Whether no pass that rises at an instant or later can clash with this one.</summary>
    private bool IsFree(PassVerdict verdict, DateTimeOffset rise) => verdict.Word == VerdictWord.No || verdict.Pass.Los.Utc + _settings.TurnAround <= rise;

    /// <summary>The passes of one satellite, found one after the other; used by one thread at a time.</summary>
    private sealed class Search(Sgp4 satellite, PassQuestion question, VerdictSettings settings, Angle above, HorizonMask? horizon)
    {
        private readonly SatelliteTrack _track = new(satellite, question.Station, question.Dut1Seconds);
        private IEnumerator<Pass>? _passes;
        private bool _ended;

        /// <summary>Those that rise before an instant and were not given yet, judged.</summary>
        public IEnumerable<PassVerdict> Until(DateTimeOffset end)
        {
            if (_passes is not { } passes)
            {
                _passes = passes = PassSearch.Overlapping(_track, question.From, question.To, above, horizon).GetEnumerator();
                _ended = !passes.MoveNext();
            }

            for (; !_ended && passes.Current.Aos.Utc < end; _ended = !passes.MoveNext())
            {
                ElementSet elements = satellite.Elements;
                Pass pass = passes.Current;
                yield return PassJudge.One(new PassCandidate(elements.Name, elements.CatalogNumber, pass, _track, ElementAge.At(elements, pass.Tca.Utc)), settings);
            }
        }
    }
}
