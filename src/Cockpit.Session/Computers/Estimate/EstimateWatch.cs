using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>What becomes known by itself as time and level go on.</summary>
internal sealed class EstimateWatch(EstimateDraft draft, EstimateInput input)
{
    private const int MostOver = 4;
    private const int LeastOver = 3;
    private readonly Scene _scene = input.Scene;
    private readonly LevelNow _level = input.Level;

    private EstimateMemory Memory
    {
        get => draft.Memory;
        set => draft.Memory = value;
    }

    /// <summary>Everything that this moment tells.</summary>
    public void Run()
    {
        double seconds = Math.Clamp(_scene.Age(Memory.Now)?.TotalSeconds ?? 0.0, 0.0, 1.0);
        Memory = Memory with { Now = _scene.Elapsed };
        if (Memory.Notice is not null && _scene.Age(Memory.NoticeAt) > EstimateLimits.NoticeFor)
        {
            Memory = Memory with { Notice = null };
        }

        Compare();
        if (!_scene.InPass || _scene.Sky is not { Now: { } look })
        {
            return;
        }

        if (Memory is { Dish: null, LostSince: null })
        {
            draft.SetUp();
        }

        LoseAndFind(look);
        FollowGain(seconds);
        Doubt();
        Regain(look);
        TakeAsDone();
    }

    /// <summary>Compares the half seconds that ended with what was expected of them.</summary>
    private void Compare()
    {
        if (Memory.GainQuantity is { } tied && _level.Quantity is { } measured && tied != measured)
        {
            Memory = Memory with { GainDb = null, GainQuantity = null, Over = [] };
        }

        foreach (LevelBin bin in _level.Closed)
        {
            double? over = bin.MeanDb - ExpectedLevel.Db(_level.ShapeDb, bin.Quantity, Memory.GainDb);
            ImmutableArray<double?> before = Memory.Over;
            Memory = Memory with { Over = (before.Length < MostOver ? before : before.RemoveAt(0)).Add(over) };
        }
    }

    private void LoseAndFind(LookAngles look)
    {
        if (Memory.LostSince is null)
        {
            bool silent = _level.NoSignalFor >= _scene.Session(EstimateLimits.NoSignalAfter);
            bool risen = _scene.Sky is { } sky && _scene.Utc - sky.Pass.Aos.Utc >= EstimateLimits.RiseGrace;
            Memory = silent && risen ? Memory with { LostSince = _scene.Elapsed, FoundSince = null, LastNudge = null } : Memory;
            return;
        }

        // A feed that fell silent says nothing about the signal: the search goes on as it was.
        if (!_level.IsFresh || _level.NoSignalFor is not null)
        {
            Memory = Memory with { FoundSince = null };
            return;
        }

        Memory = Memory with { FoundSince = Memory.FoundSince ?? _scene.Elapsed };
        if (_scene.Age(Memory.FoundSince) >= EstimateLimits.FoundAfter)
        {
            draft.Mark(look, EstimateLimits.DoubtSpread, Memory.Dish?.Origin ?? PointingOrigin.Plan);
        }
    }

    /// <summary>The scale follows the level: soon upwards, since nothing adds to a signal; slowly downwards, and only while the dish is well known.</summary>
    private void FollowGain(double seconds)
    {
        if (Memory.GainDb is not { } gain || !_level.IsFresh || MeanOverDb is not { } over)
        {
            return;
        }

        double unexplained = over + (draft.LossDb ?? 0.0);
        bool known = Memory is { LostSince: null, WideSince: null, Dish: not null } && draft.Asked?.CalledAt is null;
        double rate = over > 0.0 ? EstimateLimits.GainUpPerSec * over : known && unexplained < 0.0 ? EstimateLimits.GainDownPerSec * unexplained : 0.0;
        Memory = Memory with { GainDb = gain + (rate * seconds) };
    }

    /// <summary>A level that the believed pointing does not explain means that the belief is wrong.</summary>
    private void Doubt()
    {
        if (Memory is not { Dish: { } dish, LostSince: null } || draft.Asked?.CalledAt is not null || !_level.IsFresh
            || MeanOverDb is not { } over || draft.LossDb is not { } loss || -over - loss <= EstimateLimits.ShortDb)
        {
            Memory = Memory with { ShortSince = null };
            return;
        }

        Memory = Memory with { ShortSince = Memory.ShortSince ?? _scene.Elapsed };
        bool longAgo = !(_scene.Age(Memory.MarkedAt) < EstimateLimits.DoubtEvery) && _scene.Age(dish.Since) > EstimateLimits.AssumedAfter;
        Angle doubt = draft.BeamWidth * EstimateLimits.DoubtSpread;
        if (longAgo && _scene.Age(Memory.ShortSince) >= EstimateLimits.ShortFor && draft.Spread < doubt)
        {
            Memory = Memory with { Dish = dish with { Spread = doubt, Since = _scene.Elapsed }, ShortSince = null };
        }
    }

    /// <summary>A dish that is badly known is well known again when the level is what a well-pointed one shows.</summary>
    private void Regain(LookAngles look)
    {
        if (!(draft.Spread > draft.BeamWidth * EstimateLimits.WideSpread))
        {
            Memory = Memory with { WideSince = null };
            return;
        }

        bool regained = Memory is { GainDb: not null, LostSince: null } && _scene.Age(Memory.WideSince) >= EstimateLimits.RegainedAfter
            && _level.IsFresh && MeanOverDb >= -EstimateLimits.RegainedDb;
        if (!regained)
        {
            Memory = Memory with { WideSince = Memory.WideSince ?? _scene.Elapsed };
            return;
        }

        // The level bears the belief out where the belief itself explains it; only else the satellite is the better guess.
        if (Memory.Dish is { } dish && draft.LossDb <= EstimateLimits.RegainedDb)
        {
            Memory = Memory with { Dish = dish with { Spread = draft.BeamWidth * EstimateLimits.RegainedSpread, Since = _scene.Elapsed }, WideSince = null };
        }
        else
        {
            draft.Mark(look, EstimateLimits.RegainedSpread, PointingOrigin.MarkAndNudges);
        }
    }

    /// <summary>A move that was called is taken as done after a while: both hands are busy.</summary>
    private void TakeAsDone()
    {
        if (Memory.LostSince is null && _scene.Age(draft.Asked?.CalledAt) >= EstimateLimits.AssumedAfter)
        {
            draft.Nudge();
        }
    }

    /// <summary>Measured minus expected for a well-pointed dish over the last two seconds, dB; null when unknown.</summary>
    private double? MeanOverDb
    {
        get
        {
            double sum = 0.0;
            int count = 0;
            foreach (double? over in Memory.Over)
            {
                sum += over ?? 0.0;
                count += over is null ? 0 : 1;
            }

            return Memory.Over.Length == MostOver && count >= LeastOver ? sum / count : null;
        }
    }
}
