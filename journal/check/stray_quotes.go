package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var strayQuotes = &Check{
	Name:     note.StrayQuotes,
	Severity: problem.Warning,
	Summary:  "a value in curly quotes, or in quotes on one side, which stay in it",
	Explain: "A value wholly in straight quotes loses them, as programs that read YAML do. " +
		"Curly ones, which some editors make of them, and one that has no partner are part of the value.",
	Bad:  "---\ntitle: “Beam out”\n---\n",
	Good: "---\ntitle: Beam out\n---\n",
	Say: func(f source.Fault) (string, string) {
		if f.Why != "" {
			return "the quote at one end of this value " + f.Why + ", and stays in it", "Leave it out, or write one at both ends."
		}
		return "the quotes of " + quote(f.Word) + " stay in it", "Leave them out, or write straight ones."
	},
}
