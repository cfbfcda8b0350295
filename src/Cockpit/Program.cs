return await Cockpit.Commands.CommandRoot.RunAsync(args);
