package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unclosedComment = &Check{
	Name:     note.UnclosedComment,
	Severity: problem.Error,
	Summary:  "an HTML comment that never ends",
	Explain: "What stands between <!-- and --> is hidden from every page. Where nothing ends a comment, all the rest of the note is hidden, its snags too; " +
		"in front matter the rest of the line is, since a comment there ends on its own line.",
	Bad:  "Drain tube cleared. <!-- ask about the beam\n\n- [ ] job drain-tube: second one still blocked\n",
	Good: "Drain tube cleared. <!-- ask about the beam -->\n\n- [ ] job drain-tube: second one still blocked\n",
	Say: func(f source.Fault) (string, string) {
		if f.Why != "" {
			return "a comment begins here and does not end: " + f.Why, "Write \"-->\" where it ends, or \"\\<!--\" if it is no comment."
		}
		return "a comment begins here and never ends, so all that follows is hidden", "Write \"-->\" where it ends, or \"\\<!--\" if it is no comment."
	},
}
