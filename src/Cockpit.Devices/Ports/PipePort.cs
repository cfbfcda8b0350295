using Cockpit.Core.Formats;
using Cockpit.Devices.Files;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes from a pipe with a name in the file system; whoever writes into it may come late, leave, and come back.</summary>
/// <remarks>
/// Opening such a pipe waits for its writer, and no read of it can be interrupted everywhere: both are done on a thread of its own, which is
/// given up when the port ends.
/// </remarks>
/// <param name="path">Path of the pipe.</param>
/// <param name="time">What waiting goes by.</param>
public sealed class PipePort(string path, TimeProvider time) : IPort
{
    private const int BufferBytes = 64 * 1024;
    private static readonly TimeSpan Again = TimeSpan.FromMilliseconds(500);

    /// <inheritdoc/>
    public string Where { get; } = "pipe " + path;

    /// <summary>Whether there is a pipe under a path; told without opening it.</summary>
    public static bool IsOne(string path)
    {
        try
        {
            return FileStatus.Of(path, follow: true) is { Kind: FileKind.Pipe };
        }
        catch (IOException)
        {
            return false;
        }
    }

    /// <inheritdoc/>
    public void Open()
    {
        // A writer that is not there yet is no mistake: it may come later.
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        Complaint complaint = new(listener);
        while (true)
        {
            TaskCompletionSource<string> gone = new(TaskCreationOptions.RunContinuationsAsynchronously);
            complaint.Lost(IsOne(path) ? $"nobody writes into the pipe {path}; it is waited for" : $"there is no pipe {path} any more; it is waited for");
            if (IsOne(path))
            {
                new Thread(() => gone.SetResult(Read(complaint, listener, stop))) { IsBackground = true, Name = Where }.Start();
                try
                {
                    complaint.Lost(await gone.Task.WaitAsync(stop));
                }
                catch (OperationCanceledException)
                {
                    Release();
                    throw;
                }
            }

            await Task.Delay(Again, time, stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // The pipe belongs to the reading thread.
    }

    private string Read(Complaint complaint, IPortListener listener, CancellationToken stop)
    {
        try
        {
            using FileStream pipe = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            if (stop.IsCancellationRequested)
            {
                return "";
            }

            complaint.Connected(Where);
            byte[] buffer = new byte[BufferBytes];
            while (pipe.Read(buffer) is > 0 and int count && !stop.IsCancellationRequested)
            {
                listener.Received(buffer.AsSpan(0, count));
            }

            return $"the writer has left the pipe {path}; another is waited for";
        }
#pragma warning disable CA1031 // A thread of its own: what is not caught here would end the program in mid-pass.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            return $"the pipe {path} cannot be read ({FileWords.Of(failure)}); it is tried again";
        }
    }

    /// <summary>A thread that waits for a writer gets one for a moment, so that it can end.</summary>
    private void Release()
    {
        try
        {
            if (IsOne(path))
            {
                // Reading and writing at once never waits.
                using FileStream writer = new(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            // Then it waits on in the background, and ends with the program.
        }
    }
}
