namespace Cockpit.Core.Dsp;

/// <summary>How interleaved complex samples stand in bytes, in-phase first.</summary>
public enum SampleFormat
{
    /// <summary>Unsigned 8 bit, zero at 127.5.</summary>
    Cu8 = 0,

    /// <summary>Signed 8 bit.</summary>
    Ci8 = 1,

    /// <summary>Signed 16 bit, least significant byte first.</summary>
    Ci16Le = 2,

    /// <summary>Signed 16 bit, most significant byte first.</summary>
    Ci16Be = 3,

    /// <summary>Signed 24 bit, least significant byte first.</summary>
    Ci24Le = 4,

    /// <summary>Signed 32 bit, least significant byte first.</summary>
    Ci32Le = 5,

    /// <summary>IEEE 754 single precision, least significant byte first, full scale 1.</summary>
    Cf32Le = 6,

    /// <summary>IEEE 754 single precision, most significant byte first, full scale 1.</summary>
    Cf32Be = 7,
}

/// <summary>What a format takes and where it clips.</summary>
public static class SampleFormats
{
    /// <summary>Bytes of one complex sample.</summary>
    public static int BytesPerSample(this SampleFormat format) => format switch
    {
        SampleFormat.Cu8 or SampleFormat.Ci8 => 2,
        SampleFormat.Ci16Le or SampleFormat.Ci16Be => 4,
        SampleFormat.Ci24Le => 6,
        _ => 8,
    };

    /// <summary>Components at or above this are at the upper rail, at full scale 1.</summary>
    public static float UpperRail(this SampleFormat format) => format switch
    {
        SampleFormat.Ci8 => 127f / 128f,
        SampleFormat.Cu8 or SampleFormat.Cf32Le or SampleFormat.Cf32Be => 1f,
        _ => 32760f / 32768f,
    };

    /// <summary>Components at or below this are at the lower rail.</summary>
    public static float LowerRail(this SampleFormat format) => format switch
    {
        SampleFormat.Cu8 or SampleFormat.Ci8 or SampleFormat.Cf32Le or SampleFormat.Cf32Be => -1f,
        _ => -32760f / 32768f,
    };

    /// <summary>One step of the converter at full scale 1; 0 for floating point.</summary>
    public static double Step(this SampleFormat format) => format switch
    {
        SampleFormat.Cu8 => 1 / 127.5,
        SampleFormat.Ci8 => 1 / 128.0,
        SampleFormat.Ci16Le or SampleFormat.Ci16Be => 1 / 32768.0,
        SampleFormat.Ci24Le => 1 / 8388608.0,
        SampleFormat.Ci32Le => 1 / 2147483648.0,
        _ => 0,
    };
}
