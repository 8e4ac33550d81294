package journal

import (
	"regexp"
	"strings"

	"guidecoat/journal/note"
)

// Words right behind the result of a check may take it back: then it settles nothing.
// Only the first words count, since what stands further on may be of anything.

// denials are what those words begin with.
var denials = []string{
	`no(?:pe)?` + stop,
	`(?:but |or )?not(?:` + stop + `| (?:yet|passed|done|finished|good|ok|okay|tight|safe|tested|checked)\b)`,
	`(?:but (?:it )?)?fail(?:ed|s)?(?:` + stop + `| (?:at|on|the|for|again)\b)`,
	`(?:but (?:it )?|still )?(?:weeps?|weeping|leaks?|leaking|drips?|dripping)(?:` + stop + `| (?:at|from|on|still|a bit|a little|slightly|badly)\b)`,
	// later
	`(?:on |by |for )?(?:tomorrow|next (?:week|month|time|day|mon|tue|wed|thu|fri|sat|sun)\pL*)\b`, `(?:later|soon|tbc|tba|tbd|to (?:do|come|follow))` + stop,
	`(?:(?:the )?(?:results?|outcome|retest) (?:is |are |still |to )*)?(?:pending|awaited|awaiting|outstanding)\b`, `results? (?:still )?to (?:come|follow)\b`,
	`(?:booked|planned|postponed|cancelled|skipped|waiting)\b`,
	// in part
	`(?:partly|partially|half|halfway|almost|nearly|in part)(?:` + stop + `| (?:done|passed)\b)`,
	`(?:on |at |for )?(?:the )?(?:one|left|right|front|rear|near|off|driver'?s|passenger'?s)(?: \pL+)? only\b`, `only (?:on|at|for|one|half|the|left|right|front|rear)\b`,
	`(?:except|apart from|all but|unless)\b`, `\?`,
}

// stop is where a word stands alone.
const stop = `(?:$| *[,.;:!?)]| [-–—])`

var denial = regexp.MustCompile(`(?i)^(?:` + strings.Join(denials, "|") + `)`)

// denied tells whether a line's words take its result back, so that it settles nothing.
func denied(l *note.Line) bool { return Denial(l, l.Words()).S != "" && !l.Has("sure") }

// Denial returns those of the words of a line that take back what the first word of a check
// or an inspection says, or the tick of an item; nothing where none do.
func Denial(l *note.Line, words note.Text) note.Text {
	at := len(words.S) - len(strings.TrimLeft(words.S, " \t-–—,.:;("))
	if l.Head == "failed" {
		return words.Slice(0, 0)
	}
	return words.Slice(at, at+len(strings.TrimRight(denial.FindString(words.S[at:]), " -–—,.;:)!")))
}
