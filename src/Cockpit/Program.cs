using Cockpit.Commands;
using Cockpit.Screen.Views;
using Cockpit.Wiring;

using Utf8Console? utf8 = Utf8Console.Begin();
int code = await CommandRoot.RunAsync(args);
TerminalKeypad.Restore();
return code;
