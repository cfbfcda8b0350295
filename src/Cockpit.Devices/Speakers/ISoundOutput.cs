using Cockpit.Core.Sound;

namespace Cockpit.Devices.Speakers;

/// <summary>A device that has been opened.</summary>
internal interface ISoundOutput : IDisposable
{
    /// <summary>Its name, for people.</summary>
    string Name { get; }

    /// <summary>How far the stream has fallen behind the clock, by stalls and drift.</summary>
    TimeSpan Late { get; }

    /// <summary>Plays what the source renders until told to stop.</summary>
    /// <exception cref="SoundDeviceException">The device died.</exception>
    void Play(ISoundSource source, WaitHandle stop);
}

/// <summary>A device that takes blocks, one after another.</summary>
internal interface IBlockSink : IDisposable
{
    /// <summary>Its name, for people.</summary>
    string Name { get; }

    /// <summary>Frames of one block.</summary>
    int PeriodFrames { get; }

    /// <summary>Frames that it holds before it makes the writer wait.</summary>
    int BufferFrames { get; }

    /// <summary>Takes one block of interleaved stereo samples; waits while it is full.</summary>
    /// <exception cref="SoundDeviceException">The device died.</exception>
    void Write(ReadOnlySpan<short> block);
}
