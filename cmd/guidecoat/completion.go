package main

import (
	"io"
	"slices"
	"strings"

	"guidecoat/journal/check"

	"github.com/spf13/cobra"
)

// shells are those that can complete our commands, by name.
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
	var names []string
	for _, s := range shells {
		names = append(names, s.name)
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
			if err := s.script(cmd.Root(), cmd.OutOrStdout()); err != nil {
				return cannotPrint(err)
			}
			return nil
		},
	}
}
