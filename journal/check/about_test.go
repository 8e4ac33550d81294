package check

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestAbout(t *testing.T) {
	golden(t, "about", Named("unknown-stage").About()+strings.Repeat("=", width)+"\n"+Named("unreadable").About())
	for _, c := range All {
		text := c.About()
		for _, want := range []string{string(c.Name), c.Severity.String(), c.Summary} {
			if !strings.Contains(strings.ReplaceAll(text, "\n", " "), want) {
				t.Errorf("%s: %q is not told", c.Name, want)
			}
		}
		if !strings.Contains(text, "Wrong:") || !strings.Contains(text, "Right:") {
			t.Errorf("%s: no examples are shown", c.Name)
		}
		for _, line := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(line) > width && !strings.HasPrefix(line, "    ") {
				t.Errorf("%s: a line is too long: %s", c.Name, line)
			}
		}
		if !strings.HasSuffix(text, "\n") || strings.HasSuffix(text, "\n\n") {
			t.Errorf("%s: does not end with one line break", c.Name)
		}
	}
}

func TestAboutAll(t *testing.T) {
	golden(t, "all", AboutAll())
	if lines := strings.Count(AboutAll(), "\n"); lines != len(All) {
		t.Errorf("%d lines for %d checks", lines, len(All))
	}
}
