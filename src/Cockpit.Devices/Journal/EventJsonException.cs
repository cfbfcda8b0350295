using System.Text.Json;

namespace Cockpit.Devices.Journal;

/// <summary>What is wrong with a value of an event, in our words, fit for the middle of a sentence.</summary>
internal sealed class EventJsonException(string message) : JsonException(message);
