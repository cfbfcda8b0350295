using System.Globalization;
using Cockpit.Devices.Recordings;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Says to the recording of the samples what is to be noted in it: the pass with its AOS, TCA and LOS, and the operator's keys.</summary>
/// <param name="marks">Where to say it.</param>
public sealed class RecordingNotes(RecordingMarks marks)
{
    private PassPhase? _phase;

    /// <summary>Takes the next moment.</summary>
    public void Follow(Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        if (snapshot.Sky is { } sky)
        {
            Follow(sky, snapshot.Settings?.SatelliteName ?? "");
        }

        if (snapshot.Answer is { Taken: true } answer && LabelOf(answer.Key) is { } label)
        {
            marks.Add(label, answer.Words);
        }
    }

    private void Follow(SkyNow sky, string satellite)
    {
        bool inPass = sky.Phase is PassPhase.Climbing or PassPhase.Sinking;
        marks.Pass = inPass ? string.Create(CultureInfo.InvariantCulture, $"{satellite}, highest {sky.Pass.Tca.Look.Elevation.Degrees:0} degrees at {sky.Pass.Tca.Utc:yyyy-MM-dd'T'HH:mm:ss'Z'}") : null;

        // A session that begins inside the pass has not seen it rise.
        if (_phase is { } before && before != sky.Phase)
        {
            switch (sky.Phase)
            {
                case PassPhase.Climbing: marks.Add("AOS", $"{satellite} rises"); break;
                case PassPhase.Sinking: marks.Add("TCA", $"{satellite} at its highest"); break;
                case PassPhase.Over: marks.Add("LOS", $"{satellite} sets"); break;
            }
        }

        _phase = sky.Phase;
    }

    private static string? LabelOf(OperatorKey key) => key switch
    {
        OperatorKey.Moved => "moved",
        OperatorKey.NotMoved => "not moved",
        OperatorKey.Peaked => "best",
        OperatorKey.Search => "search",
        OperatorKey.Acknowledge => "alarm seen",
        OperatorKey.CorrectClock => "clock corrected",
        _ => null,
    };
}
