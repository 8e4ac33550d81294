package main

import (
	"cmp"
	"io"
	"slices"
	"strings"

	"guidecoat/journal/check"
	"guidecoat/journal/pick"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

func (w *world) help(cmd *cobra.Command, _ []string) {
	s := newScreen(w.stdout, w.getenv)
	s.heading(usageLine(cmd))
	about := cmp.Or(cmd.Long, cmd.Short)
	for paragraph := range strings.SplitSeq(about, "\n\n") {
		s.gap()
		s.say("", paragraph)
	}
	if cmd.Example != "" {
		s.gap()
		s.heading("For example")
		for line := range strings.SplitSeq(cmd.Example, "\n") {
			s.line("  " + line)
		}
	}
	if cmd.HasAvailableSubCommands() {
		s.gap()
		s.heading("Commands")
		s.list(w.commandList())
	}
	s.gap()
	s.heading("Flags")
	s.list(flagList(cmd))
	if !cmd.HasParent() {
		s.gap()
		s.say("", "How notes are written, by topic or by any word: guidecoat manual.")
		s.gap()
		s.say("", "DIR is a build or a garage, the current folder if it is left out. The exit code is 0 when all is done, "+
			"1 where the notes hold errors, 2 for wrong usage, 3 where files could not be read or written.")
	}
	_ = s.flush() // there is nobody left to tell
}

func usageLine(cmd *cobra.Command) string {
	line := cmd.CommandPath() + strings.TrimPrefix(cmd.Use, cmd.Name())
	if cmd.HasAvailableSubCommands() {
		line += " COMMAND"
	}
	return line
}

// commandList keeps the order of the table, which is that of the work.
func (w *world) commandList() [][2]string {
	return pick.Map(commands(), func(make func(*world) *cobra.Command) [2]string {
		c := make(w)
		return [2]string{c.Use, c.Short}
	})
}

func flagList(cmd *cobra.Command) (rows [][2]string) {
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		value, usage := pflag.UnquoteUsage(f)
		rows = append(rows, [2]string{strings.TrimSpace("--" + f.Name + " " + value), usage})
	})
	return rows
}

// newHelp is the command "help", for those who try that first.
func newHelp(*world) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Shows what a command is for.",
		ValidArgsFunction: completeOne(func(cmd *cobra.Command) []string {
			commands := pick.Where(cmd.Root().Commands(), (*cobra.Command).IsAvailableCommand)
			return pick.Map(commands, func(c *cobra.Command) string { return c.Name() + "\t" + c.Short })
		}),
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			if len(args) == 0 {
				return root.Help()
			}
			if c := pick.First(root.Commands(), func(c *cobra.Command) bool { return c.Name() == args[0] }); c != nil {
				return c.Help()
			}
			return unknownCommand(root, args[0])
		},
	}
}

var shells = []struct {
	name   string
	script func(root *cobra.Command, w io.Writer) error
}{
	{"bash", func(root *cobra.Command, w io.Writer) error { return root.GenBashCompletionV2(w, true) }},
	{"zsh", (*cobra.Command).GenZshCompletion},
	{"fish", func(root *cobra.Command, w io.Writer) error { return root.GenFishCompletion(w, true) }},
	{"powershell", (*cobra.Command).GenPowerShellCompletionWithDesc},
}

func newCompletion(*world) *cobra.Command {
	names := make([]string, len(shells))
	for i, s := range shells {
		names[i] = s.name
	}
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Prints a script that completes commands in your shell.",
		Long: "Prints a script that lets your shell complete guidecoat's commands, flags and words. SHELL is " +
			strings.Join(names, ", ") + ". Have the shell read it when it starts.",
		Example:   "guidecoat completion fish | source\nsource <(guidecoat completion bash)",
		ValidArgs: names,
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) != 1:
				return wrongUsage(check.Choose("", names), "completion needs the name of one shell")
			case !slices.Contains(names, args[0]):
				return wrongUsage(check.Choose(args[0], names), "there is no completion for a shell called %q", args[0])
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			s := shells[slices.Index(names, args[0])]
			return cannotPrint(s.script(cmd.Root(), cmd.OutOrStdout()))
		},
	}
}
