package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"guidecoat/cmd/guidecoat/manual"

	"github.com/spf13/pflag"
)

// Every command that the manual or the README shows can be typed as it stands, and
// every command there is stands in both.
func TestCommandsOfTheManual(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{"README": string(data)}
	for _, topic := range manual.Topics() {
		for _, s := range topic.Sections {
			texts[topic.Name] += s.Text
		}
	}
	root := newRoot(&world{getenv: os.Getenv, stdout: os.Stdout})
	blocks := regexp.MustCompile("(?ms)^```sh\n(.*?)^```")
	shown := regexp.MustCompile("[`\n]guidecoat ([a-z][a-z-]*)([^`\n]*)")
	n := 0
	for where, text := range texts {
		typed := "`" + strings.Join(regexp.MustCompile("`guidecoat [^`]*`").FindAllString(text, -1), "")
		for _, b := range blocks.FindAllStringSubmatch(text, -1) {
			typed += "\n" + b[1]
		}
		for _, m := range shown.FindAllStringSubmatch(typed, -1) {
			n++
			cmd, _, err := root.Find([]string{m[1]})
			if err != nil || cmd == root {
				t.Errorf("%s: %s: there is no command %s", where, m[0], m[1])
				continue
			}
			for _, flag := range regexp.MustCompile(`--[a-z-]+`).FindAllString(m[2], -1) {
				if cmd.Flags().Lookup(strings.TrimPrefix(flag, "--")) == nil {
					t.Errorf("%s: %s: there is no flag %s", where, m[0], flag)
				}
			}
		}
	}
	if n < 60 {
		t.Errorf("only %d commands were found", n)
	}
	for _, c := range root.Commands() {
		for _, where := range []string{"README", "commands"} {
			if c.Name() != "completion" && c.Name() != "help" && !strings.Contains(texts[where], "\n| `guidecoat "+c.Name()) {
				t.Errorf("%s does not list %s", where, c.Name())
			}
		}
	}
}

// All help has one form: a command does something, in a sentence; a flag tells it to do
// something, in a clause that begins with the verb.
func TestHelpHasOneForm(t *testing.T) {
	root := newRoot(&world{getenv: os.Getenv, stdout: os.Stdout})
	third := regexp.MustCompile(`^[A-Z][a-z]+s [^.]+\.$`)
	order := regexp.MustCompile("^(choose|count|give|list|look|name|open|print|put|read|show|start|tell|use|with --[a-z]+: print|write) [^.]+$")
	flags := 0
	for _, c := range append(root.Commands(), root) {
		if !third.MatchString(c.Short) {
			t.Errorf("%s: %q", c.Name(), c.Short)
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			flags++
			if _, usage := pflag.UnquoteUsage(f); !order.MatchString(strings.NewReplacer("2.1.0", "", "./", "").Replace(usage)) {
				t.Errorf("%s --%s: %q", c.Name(), f.Name, usage)
			}
		})
	}
	if flags < 30 {
		t.Errorf("only %d flags were found", flags)
	}
}
