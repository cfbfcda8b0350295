using System.Text.Json.Serialization;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Devices.Journal;

/// <summary>The event types, and what a review keeps of them, whose JSON code is generated when the program is built; used through <see cref="EventJson"/>.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower,
    NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    IgnoreReadOnlyProperties = true,
    UseStringEnumConverter = true)]
[JsonSerializable(typeof(SessionOpened))]
[JsonSerializable(typeof(SessionClosed))]
[JsonSerializable(typeof(Ticked))]
[JsonSerializable(typeof(ClockCorrected))]
[JsonSerializable(typeof(ClockCompared))]
[JsonSerializable(typeof(OperatorPressed))]
[JsonSerializable(typeof(HeadTurned))]
[JsonSerializable(typeof(TruthRecorded))]
[JsonSerializable(typeof(FeedConnected))]
[JsonSerializable(typeof(FeedLost))]
[JsonSerializable(typeof(FeedLineRejected))]
[JsonSerializable(typeof(SignalMeasured))]
[JsonSerializable(typeof(FeedRemarked))]
[JsonSerializable(typeof(FeedNoted))]
[JsonSerializable(typeof(ReceiverTuned))]
[JsonSerializable(typeof(PlaceFixed))]
[JsonSerializable(typeof(RecordingWatched))]
[JsonSerializable(typeof(PictureGrew))]
[JsonSerializable(typeof(SpeakerChanged))]
[JsonSerializable(typeof(JournalChanged))]
[JsonSerializable(typeof(PartFailed))]
[JsonSerializable(typeof(DiskMeasured))]
[JsonSerializable(typeof(PointingMeasured))]
[JsonSerializable(typeof(DirectionKnown))]
[JsonSerializable(typeof(ReviewLog))]
internal sealed partial class JournalJson : JsonSerializerContext;
