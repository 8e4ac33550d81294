package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var misplacedFrontMatter = &Check{
	Name:     note.MisplacedFrontMatter,
	Severity: problem.Error,
	Summary:  "front matter that does not begin with `---` on the first line, or stands below its end",
	Explain: "Read as words of the body its costs would be lost and what is private in it shown, so the note is left out whole; a key with its list further below is left out alone. " +
		"If these are words after all, put an empty front matter, `---` twice, above them.",
	Bad:  "----\nstage: rear axle\ncost: 12.00 hose\n----\n",
	Good: "---\nstage: rear axle\ncost: 12.00 hose\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "front matter stands here, but " + f.Why, f.Help
	},
}
