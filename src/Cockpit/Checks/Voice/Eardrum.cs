using Cockpit.Core.Sound;

namespace Cockpit.Checks.Voice;

/// <summary>Takes in 16-bit stereo samples and keeps both ears at an eighth of the rate: all that the listener is given.</summary>
public sealed class Eardrum
{
    /// <summary>Samples a second that are kept.</summary>
    public const int Rate = SoundFormat.Rate / Thinned;

    private const int Thinned = 8;
    private readonly List<float> _left = [];
    private readonly List<float> _right = [];
    private int _leftSum;
    private int _rightSum;
    private int _count;

    /// <summary>The left ear, full scale 1.</summary>
    public IReadOnlyList<float> Left => _left;

    /// <summary>The right ear, full scale 1.</summary>
    public IReadOnlyList<float> Right => _right;

    /// <summary>Takes in the next samples of a recording.</summary>
    /// <param name="interleaved">2·frames samples: left, right, left, ...</param>
    public void Hear(ReadOnlySpan<short> interleaved)
    {
        for (int i = 0; i + 1 < interleaved.Length; i += SoundFormat.Channels)
        {
            _leftSum += interleaved[i];
            _rightSum += interleaved[i + 1];
            if (++_count == Thinned)
            {
                // The mean of eight is a filter enough: of the partials only what nobody listens to folds down.
                _left.Add(_leftSum / (float)(Thinned * short.MaxValue));
                _right.Add(_rightSum / (float)(Thinned * short.MaxValue));
                (_leftSum, _rightSum, _count) = (0, 0, 0);
            }
        }
    }
}
