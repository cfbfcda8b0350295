using Cockpit.Core.Sensing;

namespace Cockpit.Devices.Phone;

/// <summary>Takes what the phone says; called from any thread, returns at once.</summary>
public interface IPhoneListener
{
    /// <summary>The phone told how it is turned.</summary>
    /// <param name="sample">Where the axis along the dish points.</param>
    /// <param name="age">How old that was when the page sent it.</param>
    void Turned(SensorSample sample, TimeSpan age);

    /// <summary>A button of the page was pressed.</summary>
    /// <param name="button">Which.</param>
    void Pressed(PhoneButton button);

    /// <summary>How it stands with the phone changed.</summary>
    /// <param name="state">Now.</param>
    /// <param name="words">What is the matter and what to do; empty when all is well.</param>
    void Changed(PhoneState state, string words);

    /// <summary>Somebody came with a wrong code.</summary>
    /// <param name="count">How many requests so far.</param>
    void TurnedAway(int count);

    /// <summary>Something came that was not understood, or has to be told.</summary>
    /// <param name="reason">One sentence without anything secret.</param>
    void Refused(string reason);
}
