using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Browser;

/// <summary>One browser for all tests that look at pages; not started where there is none.</summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private Chromium? _browser;

    internal Chromium Browser => _browser ?? throw new InvalidOperationException("the test that needs a browser has not asked for one: use ChromiumFact or ChromiumTheory");

    public async Task InitializeAsync() => _browser = Peers.NoBrowser is null ? await Chromium.StartAsync() : null;

    public async Task DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }
    }
}

/// <summary>The tests that share it.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<BrowserFixture>
{
    public const string Name = "Browser";
}
