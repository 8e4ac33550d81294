package check

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var kebab = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// TestEveryFlawHasACheck reads the flaws out of the source, so that none is forgotten.
func TestEveryFlawHasACheck(t *testing.T) {
	flaw := regexp.MustCompile(`(?m)^(?:const)?\s*\w+\s+source\.Flaw = "([^"]*)"`)
	found := map[source.Flaw]bool{}
	for _, pattern := range []string{"../*.go", "../*/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range flaw.FindAllSubmatch(data, -1) {
				found[source.Flaw(m[1])] = true
			}
		}
	}
	if len(found) < 60 {
		t.Fatalf("only %d flaws found", len(found))
	}
	for f := range found {
		if c := byName[f]; c == nil || !says(c) {
			t.Errorf("no check says what %q is", f)
		}
	}
	for _, c := range All {
		if says(c) != found[c.Name] || says(c) == (c.Run != nil) || c.Say != nil && c.Message+c.Help != "" {
			t.Errorf("%s: says %t, runs %t, is a flaw %t", c.Name, says(c), c.Run != nil, found[c.Name])
		}
		for _, name := range regexp.MustCompile(`\{(\w*)\}?`).FindAllStringSubmatch(c.Message+c.Help, -1) {
			if !slices.Contains([]string{"word", "why", "near", "nearest", "place"}, name[1]) {
				t.Errorf("%s: nothing fills %s", c.Name, name[0])
			}
		}
	}
}

func says(c *Check) bool { return c.Say != nil || c.Message != "" }

func TestChecksAreWhole(t *testing.T) {
	seen := map[source.Flaw]bool{}
	for _, c := range All {
		if seen[c.Name] {
			t.Errorf("two checks are called %s", c.Name)
		}
		seen[c.Name] = true
		if !kebab.MatchString(string(c.Name)) {
			t.Errorf("%q is not kebab-case", c.Name)
		}
		if Named(string(c.Name)) != c {
			t.Errorf("%s is not found by its name", c.Name)
		}
		if c.Severity < problem.Error || c.Severity > problem.Information {
			t.Errorf("%s has no severity", c.Name)
		}
		if c.Summary == "" || strings.HasSuffix(c.Summary, ".") || len(c.Summary) > 90 || !lowerStart(c.Summary) {
			t.Errorf("%s: summary %q", c.Name, c.Summary)
		}
		if n := sentences(c.Explain); n < 1 || n > 3 || !strings.HasSuffix(c.Explain, ".") {
			t.Errorf("%s: %d sentences explain it", c.Name, n)
		}
		bad, good := c.Examples()
		if bad == good || !strings.HasSuffix(bad, "\n") || !strings.HasSuffix(good, "\n") {
			t.Errorf("%s: an example does not end with its line, or is not put right", c.Name)
		}
	}
	if Named("unknown") != nil {
		t.Error("a check that there is not was found")
	}
}

func lowerStart(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return !unicode.IsUpper(r)
}

// sentences counts them: a full stop, then a space and a capital, quote or backtick.
func sentences(s string) int {
	return len(regexp.MustCompile("[.?!](?: [A-Z\"`0-9-]|$)").FindAllString(s, -1))
}

// wording holds a problem to the rules of messages.
func wording(t testing.TB, p problem.Problem) {
	t.Helper()
	m := strings.TrimPrefix(p.Message, "HTML ")
	if m == "" || !lowerStart(m) && !strings.HasPrefix(m, "\"") || strings.HasSuffix(m, ".") || strings.ContainsAny(m, "\n\r") {
		t.Errorf("%s: message %q", p.Check, p.Message)
	}
	if p.Help == "" {
		return
	}
	help := regexp.MustCompile(`^Nearest: "[^"]*"\. ?`).ReplaceAllString(p.Help, "")
	if help == "" {
		return
	}
	r, _ := utf8.DecodeRuneInString(help)
	if !unicode.IsUpper(r) && r != '"' && r != '`' || !strings.HasSuffix(help, ".") || strings.ContainsAny(help, "\n\r") {
		t.Errorf("%s: help %q", p.Check, p.Help)
	}
	if n := sentences(help); n > 1 {
		t.Errorf("%s: %d sentences of help: %q", p.Check, n, p.Help)
	}
}

func TestExamples(t *testing.T) {
	for _, c := range All {
		t.Run(string(c.Name), func(t *testing.T) {
			wrong, right := c.Examples()
			for _, p := range proofread(t, folder(right)) {
				if p.Severity != problem.Information || p.Check == string(c.Name) {
					t.Errorf("the good example is not: %s", printed(t, []problem.Problem{p}))
				}
			}
			if c.Elsewhere {
				return
			}
			bad := proofread(t, folder(wrong))
			own := 0
			for _, p := range bad {
				wording(t, p)
				switch {
				case p.Check == string(c.Name):
					own++
				case p.Severity != problem.Information:
					t.Errorf("the bad example raises something else: %s", printed(t, []problem.Problem{p}))
				}
			}
			if own != 1 {
				t.Errorf("the bad example raises it %d times", own)
			}
			golden(t, string(c.Name), printed(t, bad))
		})
	}
}

func TestNoGoldenIsLeftOver(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".txt")
		if c := Named(name); (c == nil || c.Elsewhere) && !slices.Contains(others, name) {
			t.Errorf("%s belongs to no check", f)
		}
	}
}

// others are the goldens that are no check's.
var others = []string{"about", "all", "many"}
