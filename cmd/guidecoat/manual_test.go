package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"guidecoat/cmd/guidecoat/manual"
)

// Every command that the manual or the README shows can be typed as it stands, and
// every command there is stands in both.
func TestCommandsOfTheManual(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{"README": string(data)}
	for _, topic := range manual.Topics {
		for _, s := range topic.Sections {
			texts[topic.Name] += s.Text
		}
	}
	root := newRoot(&world{getenv: os.Getenv, stdout: os.Stdout})
	blocks := regexp.MustCompile("(?ms)^```sh\n(.*?)^```")
	shown := regexp.MustCompile("[`\n]guidecoat ([a-z]+)([^`\n]*)")
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
