package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// What commands take: their arguments, errors about them in our own words, and the help.

func helpOf(cmd *cobra.Command) string { return "See: " + cmd.CommandPath() + " --help" }

func unknownCommand(root *cobra.Command, name string) error {
	names := pick.Map(pick.Where(root.Commands(), (*cobra.Command).IsAvailableCommand), (*cobra.Command).Name)
	return wrongUsage(check.Nearest(name, names, helpOf(root)), "there is no command called %q", name)
}

func (w *world) flagTrouble(cmd *cobra.Command, err error) error {
	if !cmd.HasParent() { // "guidecoat cost --json" fails on the flag before the command is looked at
		first := slices.IndexFunc(w.args, func(a string) bool { return !strings.HasPrefix(a, "-") })
		if first >= 0 {
			return unknownCommand(cmd, w.args[first])
		}
	}
	if unknown, ok := errors.AsType[*pflag.NotExistError](err); ok {
		name := "--" + unknown.GetSpecifiedName()
		if unknown.GetSpecifiedShortnames() != "" {
			name = name[1:]
		}
		var flags []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { flags = append(flags, "--"+f.Name) })
		return wrongUsage(check.Nearest(name, flags, helpOf(cmd)), "%s has no flag %s", cmd.CommandPath(), name)
	}
	if missing, ok := errors.AsType[*pflag.ValueRequiredError](err); ok {
		value, _ := pflag.UnquoteUsage(missing.GetFlag())
		return wrongUsage("Write it behind the flag: --"+missing.GetFlag().Name+" "+value, "--%s needs a value", missing.GetFlag().Name)
	}
	if invalid, ok := errors.AsType[*pflag.InvalidValueError](err); ok {
		bad, _ := errors.AsType[*badValue](invalid.Unwrap())
		if bad == nil {
			return wrongUsage(helpOf(cmd), "--%s cannot be %q", invalid.GetFlag().Name, invalid.GetValue())
		}
		return wrongUsage(bad.help, "--%s cannot be %q: %s", invalid.GetFlag().Name, invalid.GetValue(), bad.why)
	}
	return wrongUsage(helpOf(cmd), "%s", err)
}

// onFolder makes a command work on the folder that is named, or on the current one.
func onFolder(cmd *cobra.Command, run func(cmd *cobra.Command, dir string) error) *cobra.Command {
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) > 1 {
			return wrongUsage("A name with spaces in it needs quotes. "+helpOf(cmd), "%s takes one folder, not %d", cmd.CommandPath(), len(args))
		}
		return nil
	}
	cmd.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error { return run(cmd, append(args, ".")[0]) }
	return cmd
}

// answering makes a command answer about a folder as it stood on a day, then tell what is wrong with the notes.
func (w *world) answering(cmd *cobra.Command, day *measure.Date, answer func(*place) error) *cobra.Command {
	asOf(cmd, day, howItStood)
	return onFolder(cmd, func(_ *cobra.Command, dir string) error {
		p, err := w.load(dir, *day)
		if err != nil {
			return err
		}
		if err := answer(p); err != nil {
			return cannotPrint(err)
		}
		return w.tell(p)
	})
}

// alone refuses flags that do not go together: of each group, set apart by spaces, one may be given.
func alone(groups ...string) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, _ []string) error {
		for _, group := range groups {
			var set []string
			for f := range strings.FieldsSeq(group) {
				if cmd.Flags().Changed(f) {
					set = append(set, "--"+f)
				}
			}
			if len(set) > 1 {
				return wrongUsage(helpOf(cmd), "%s do not go together", strings.Join(set, " and "))
			}
		}
		return nil
	}
}

type badValue struct{ why, help string }

func (b *badValue) Error() string { return b.why }

// A parsed flag reads its value by a function of the note language.
type parsed[T any] struct {
	to    *T
	parse func(string) (T, *badValue)
}

func (p parsed[T]) Set(text string) error {
	v, bad := p.parse(text)
	if bad != nil {
		return bad
	}
	*p.to = v
	return nil
}

func (p parsed[T]) String() string {
	if p.to == nil {
		return ""
	}
	return fmt.Sprint(*p.to)
}

func (p parsed[T]) Type() string { return "value" }

// dayOrLength gives a command a flag for a date or a length of time.
func dayOrLength[T any](cmd *cobra.Command, to *T, name, usage string, parse func(string) (T, *source.Malformed)) {
	cmd.Flags().Var(parsed[T]{to, func(text string) (T, *badValue) {
		v, bad := parse(text)
		if bad != nil {
			return v, &badValue{bad.Why, bad.Sentence()}
		}
		return v, nil
	}}, name, usage)
	completeNothing(cmd, name)
}

const howItStood = "tell how it stood on `DATE`"

func asOf(cmd *cobra.Command, to *measure.Date, usage string) {
	dayOrLength(cmd, to, "as-of", usage, measure.ParseDate)
}

// word gives a command a flag that is one of a list of words.
func word(cmd *cobra.Command, to *string, name, usage, thing string, words func() []string) {
	cmd.Flags().Var(parsed[string]{to, func(text string) (string, *badValue) {
		list := words()
		if slices.Contains(list, text) {
			return text, nil
		}
		return "", &badValue{"there is no such " + thing, check.Choose(text, list)}
	}}, name, usage)
	must(cmd.RegisterFlagCompletionFunc(name, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return words(), cobra.ShellCompDirectiveNoFileComp
	}))
}

// completeOne offers words for the only argument.
func completeOne(words func(*cobra.Command) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return words(cmd), cobra.ShellCompDirectiveNoFileComp
	}
}

func completeNothing(cmd *cobra.Command, flag string) {
	must(cmd.RegisterFlagCompletionFunc(flag, cobra.NoFileCompletions))
}

// must is for what fails only where this program is written wrongly.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

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
