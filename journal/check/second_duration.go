package check

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var secondDuration = &Check{
	Name:     "second-duration",
	Severity: problem.Warning,
	Summary:  "a duration with what looks like more of it, or a break, in the words behind",
	Explain: "The first length of time of a line is what counts, and everything behind it is description. " +
		"Minutes behind hours touch them or have a unit, as in 3h40 or 3h 40m. Breaks are not taken off.",
	Bad:  "---\nstage: body\ntime: 9:00-17:00 less 1h lunch\n---\n",
	Good: "---\nstage: body\ntime: 7h filler, an hour of lunch between\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				m, ok := l.Head.(measure.Minutes)
				if !ok || p.leftOut(l) {
					continue
				}
				if from, to, help := alsoDuration(l, m); from < to {
					p.Report(l.Words().Span(from, to), quote(l.Words().S[from:to])+" is description here, and the time is "+m.String(), help)
				}
			}
		}
	},
}

var (
	hoursAlone  = regexp.MustCompile(`(?i)^[0-9]+ *(?:h|hrs?|hours?)$`)
	bareMinutes = regexp.MustCompile(`^(05|[1-5][05]) (\pL+)(?:[,.]?$|[,.] | (\pL*(?: \pL+)?))`)
	// counted are words behind a number that is no minutes, besides plurals in s and units.
	counted = regexp.MustCompile(`(?i)^(?:and|core|door|more|new|odd|of|old|or|per|percent|piece|pin|point|speed|spoke|teeth|to|tooth|way|wire|x|year)$`)

	takenOff = `less|minus|without|excl\.?|excluding|not counting|[-–−]`
	pause    = `lunch|tea|breaks?|breakfast|dinner|supper|coffee|rest`
	length   = `([0-9]+(?:\.[0-9]+)? ?(?:h|hrs?|hours?)(?: ?[0-9]{1,2} ?(?:m|mins?|minutes)?)?|[0-9]?[05](?:m| ?mins?| ?minutes))`
	// aBreak is a length that is taken off, moreTime one that begins a part of the words.
	aBreak   = regexp.MustCompile(`(?i)(?:^(?:` + takenOff + `) ?` + length + `(?:[ ,)]|$)|(?:^|[ (,])` + length + ` (?:\pL+ )?(?:` + pause + `|off)\b|\b(?:` + pause + `) ` + length + `(?:[ ,)]|$))`)
	moreTime = regexp.MustCompile(`(?i)(?:[,(&+] ?(?:and |plus |then )?|\b(?:and|plus|then) )` + length + `(?: (\pL+)|[,.)]|$)`)
	// noWork are words behind a length that nobody worked.
	noWork = regexp.MustCompile(`(?i)^(?:a|after|ago|apart|at|before|between|by|coil|cure|curing|dry|drying|each|for|from|in|late|later|left|long|lost|of|on|old|per|reel|roll|since|soak|to|too|until|wait|waiting)$`)
)

// alsoDuration returns where the words of a line hold what was probably meant as part
// of its duration m, and how that is written.
func alsoDuration(l *note.Line, m measure.Minutes) (from, to int, help string) {
	words := l.Words().S
	if at := bareMinutes.FindStringSubmatch(words); at != nil && hoursAlone.MatchString(l.HeadSpan().Text()) && !isCounted(at[2], at[3]) {
		return 0, len(at[1]), fmt.Sprintf("Write %s %sm if these are minutes, or another word first.", m, strings.TrimPrefix(at[1], "0"))
	}
	if at := aBreak.FindStringSubmatchIndex(words); at != nil {
		from, to = group(at)
		if off, bad := measure.ParseDuration(words[from:to]); bad == nil && off < m {
			return from, to, fmt.Sprintf("Write the time worked, such as %s without the break.", m-off)
		}
		return 0, 0, ""
	}
	if at := moreTime.FindStringSubmatchIndex(words); at != nil && (at[4] < 0 || !noWork.MatchString(words[at[4]:at[5]])) {
		if more, bad := measure.ParseDuration(words[at[2]:at[3]]); bad != nil || more > halfDay {
			return 0, 0, ""
		}
		return at[2], at[3], "Write a line for each, or the time worked in all."
	}
	return 0, 0, ""
}

// group returns where the first group that matched stands.
func group(at []int) (from, to int) {
	for i := 2; i < len(at); i += 2 {
		if at[i] >= 0 {
			return at[i], at[i+1]
		}
	}
	return 0, 0
}

// isCounted tells whether a number before these words says how many or how large.
func isCounted(word, next string) bool {
	if isUnit(word) || counted.MatchString(word) || strings.HasSuffix(word, "s") {
		return true
	}
	plural := func(w string) bool { return strings.HasSuffix(w, "s") }
	return !strings.HasSuffix(word, "ing") && slices.ContainsFunc(strings.Fields(next), plural)
}
