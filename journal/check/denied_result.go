package check

import (
	"slices"
	"strings"

	"guidecoat/journal/problem"
)

var deniedResult = &Check{
	Name:     "denied-result",
	Severity: problem.Warning,
	Summary:  "a check that is passed or done, and whose words say that it was not",
	Explain: "The first word alone settles what is due, or leaves it outstanding. " +
		"A check that found a fault has failed, even where it was carried out.",
	Bad:  "---\nchecks:\n  leak-check: done, weeps at the left union\n---\n",
	Good: "---\nchecks:\n  leak-check: failed, weeps at the left union\n---\n",
	Run: func(p *Pass) {
		for _, c := range p.State.Build.Checks {
			if at, word := denial(c.Line.Words().S); c.Result != "failed" && word != "" {
				p.Report(c.Line.Words().Span(at, at+len(word)), quote(c.Name)+" is "+c.Result+", but these words say that it was not",
					"Write \"failed\" in place of "+quote(c.Result)+" if it did not pass.")
			}
		}
	},
}

// What denies a result among the first words behind it; what takes a denial back
// before it, and behind it; and what may follow `not` so that it is one.
var (
	denials   = []string{"failed", "fails", "fail", "weeps", "weeping", "leaks", "leaking", "drips", "dripping", "unsafe"}
	takesBack = []string{"no", "not", "nothing", "none", "never", "without", "nor", "neither", "if", "where", "what", "that", "which", "had", "was", "were", "after", "since", "as", "for"}
	mendedNow = []string{"mended", "fixed", "cured", "gone", "stopped", "replaced", "sorted", "before", "last", "earlier", "first", "then", "now", "again"}
	negated   = []string{"", "passed", "pass", "done", "good", "ok", "right", "sure", "yet", "finished", "tight", "safe"}
)

// firstWords is how many words behind a result are looked at.
const firstWords = 6

// denial returns the word that denies a result, and where it stands; "" for none.
func denial(text string) (at int, word string) {
	isLetter := func(r rune) bool { return r == '\'' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }
	var words []string
	var begins []int
	for i := 0; i < len(text); {
		if !isLetter(rune(text[i])) {
			i++
			continue
		}
		end := i
		for end < len(text) && isLetter(rune(text[end])) {
			end++
		}
		words, begins = append(words, strings.ToLower(text[i:end])), append(begins, i)
		i = end
	}
	for i, w := range words[:min(len(words), firstWords)] {
		next := append(words[i+1:len(words):len(words)], "")[0]
		before, after := words[max(0, i-3):i], words[i+1:]
		switch {
		case w == "not" && slices.Contains(negated, next), w == "no" && next == "pass":
		case !slices.Contains(denials, w) || containsAny(before, takesBack) || containsAny(after, mendedNow):
			continue
		}
		return begins[i], text[begins[i] : begins[i]+len(w)]
	}
	return 0, ""
}

func containsAny(words, of []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(of, w) })
}
