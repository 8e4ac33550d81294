package main

import (
	"slices"

	"guidecoat/journal/check"
	"guidecoat/journal/measure"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// A badValue says why a flag cannot have a value, and what would be right.
type badValue struct{ why, help string }

func (b *badValue) Error() string { return b.why }

// A parsed flag reads its value by a function of the note language, so that the
// command line takes what the notes take.
type parsed[T any] struct {
	to    *T
	parse func(string) (T, *badValue)
	show  func(T) string
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
	if p.to == nil || p.show == nil {
		return ""
	}
	return p.show(*p.to)
}

func (p parsed[T]) Type() string { return "value" }

var _ pflag.Value = parsed[string]{}

const howItStood = "tell how it stood on `DATE`"

// asOf gives a command the flag for the day it is asked about.
func asOf(cmd *cobra.Command, to *measure.Date, usage string) {
	cmd.Flags().Var(parsed[measure.Date]{to, func(text string) (measure.Date, *badValue) {
		d, bad := measure.ParseDate(text)
		if bad != nil {
			return 0, &badValue{bad.Why, bad.Sentence()}
		}
		return d, nil
	}, measure.Date.String}, "as-of", usage)
	completeNothing(cmd, "as-of")
}

// length gives a command a flag for a length of time.
func length(cmd *cobra.Command, to *measure.Minutes, name, usage string) {
	cmd.Flags().Var(parsed[measure.Minutes]{to, func(text string) (measure.Minutes, *badValue) {
		m, bad := measure.ParseDuration(text)
		if bad != nil {
			return 0, &badValue{bad.Why, bad.Sentence()}
		}
		return m, nil
	}, func(m measure.Minutes) string {
		if m == 0 {
			return ""
		}
		return m.String()
	}}, name, usage)
	completeNothing(cmd, name)
}

// word gives a command a flag that is one of a list of words.
func word(cmd *cobra.Command, to *string, name, usage, thing string, words func() []string) {
	cmd.Flags().Var(parsed[string]{to, func(text string) (string, *badValue) {
		list := words()
		if slices.Contains(list, text) {
			return text, nil
		}
		return "", &badValue{"there is no such " + thing, check.Choose(text, list)}
	}, func(s string) string { return s }}, name, usage)
	must(cmd.RegisterFlagCompletionFunc(name, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return words(), cobra.ShellCompDirectiveNoFileComp
	}))
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
