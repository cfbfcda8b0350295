using Cockpit.Commands;
using Cockpit.Screen.Views;

int code = await CommandRoot.RunAsync(args);
TerminalKeypad.Restore();
return code;
