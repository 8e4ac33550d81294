package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var controlCharacter = &Check{
	Name:     note.ControlCharacter,
	Severity: problem.Error,
	Summary:  "a character that commands a machine and is no text, or line ends of an old sort",
	Explain: "Such characters come with pasted text or a broken file, cannot be seen, and end a line or hide words in some programs. " +
		"A line of front matter that has one is left out.",
	Bad:  "---\nstage: rear axle\n---\nThe beam\x1b[2J is out.\n",
	Good: "---\nstage: rear axle\n---\nThe beam is out.\n",
	Say:  func(f source.Fault) (string, string) { return f.Why, f.Help },
}
