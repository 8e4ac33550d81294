package check

import (
	"fmt"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var notUTF8 = &Check{
	Name:     note.NotUTF8,
	Severity: problem.Error,
	Summary:  "a byte that is not UTF-8 text, or a file that is UTF-16",
	Explain: "Notes are read as UTF-8, which every current editor can write. " +
		"A byte that is something else shows as the wrong character, or belongs to a file that is no text at all. " +
		"Open the file in an editor and save it as UTF-8.",
	Bad:       "Måla i gult, saved as Latin-1\n",
	Good:      "Måla i gult, saved as UTF-8\n",
	Elsewhere: true,
	Say: func(f source.Fault) (string, string) {
		if f.Word != "" {
			return "the file is " + f.Word + ", not UTF-8, and nothing of it is read", "Save the file as UTF-8."
		}
		return fmt.Sprintf("the byte 0x%02X is not UTF-8", f.Span.Text()), "Save the file as UTF-8."
	},
}
