package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearKind = &Check{
	Name:     note.NearKind,
	Severity: problem.Error,
	Summary:  "a word a letter or two from a kind of snag",
	Explain: "A snag may begin with temporary, job, inspect, decide or recheck, or with again. " +
		"A slip would make it an ordinary job, and a temporary fix would be forgotten.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] temporay exhaust-hanger: hung on wire\n",
	Good: "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\n",
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return "no kind of snag called " + quote(f.Word), f.Help
		}
		return "no kind of snag called " + quote(f.Word), "Nearest: " + quote(f.Near[0]) + ". Write a comma instead of the colon if these are plain words."
	},
}
