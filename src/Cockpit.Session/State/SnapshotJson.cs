using System.Text.Json.Serialization;

namespace Cockpit.Session.State;

/// <summary>How a snapshot becomes JSON without reflection, so that the native program can take its fingerprint too.</summary>
[JsonSourceGenerationOptions(NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals)]
[JsonSerializable(typeof(Snapshot))]
internal sealed partial class SnapshotJson : JsonSerializerContext;
