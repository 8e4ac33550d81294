package note

import (
	"fmt"
	"regexp"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/source"
)

const (
	aLength = `([0-9]+(?:\.[0-9]+)? ?(?:h|hrs?|hours?)(?: ?[0-9]{1,2} ?(?:m|mins?))?|[0-9]*[05](?:m| ?mins?| ?minutes)|(?:an? |one )?(?:half|quarter)?[- ]?(?:of )?(?:an? )?hour|half an? h(?:ou)?r)`
	aPause  = `(?:lunch|tea|break|breakfast|dinner|supper|coffee|rest)`
)

var (
	// a break is taken off: less 1h, minus an hour for lunch
	takenOff = regexp.MustCompile(`(?i)^[,(]? ?(?:less|minus|without|excl(?:uding|\.)?|not counting|[-–−]) ?` + aLength + `(?:[ ,.)]|$)`)
	noLength = regexp.MustCompile(`(?i)^[,(]? ?(?:less|minus|excl(?:uding|\.)?|not counting) ` + aPause + `\b`)
	// a break within a range of clock times: with half an hour lunch, lunch 30m
	breakIn = regexp.MustCompile(`(?i)(?:^|[ (,])` + aLength + `(?:'s)? (?:\pL+ ){0,2}` + aPause + `\b|\b` + aPause + `(?: break)?(?: of)? ` + aLength + `(?:[ ,.)]|$)`)
	// so many people, or so many times
	people = regexp.MustCompile(`(?i)^,? ?\(?(both of us|both|(?:the )?two of us|each|together|twice)\)?(?:[,.;)]|$)`)
	// people before the length: 2 people x 1h
	peopleFirst = regexp.MustCompile(`(?i)^([2-9])(?: ?(?:people|persons|men|of us|lads|pairs of hands),?(?: ?(?:x|×|for|at|@|of))?| ?[x×]) ?([0-9].*)$`)
)

// readDuration reads the time of a line. Where one or several people may be meant, it asks.
func readDuration(_ context, s string) (any, int, *source.Malformed) {
	m, end, bad := measure.ScanDuration(s)
	if comma := strings.IndexByte(s, ','); bad != nil && comma > 0 && !endsNumber(s[comma+1:]) { // 2h, twice
		if w, stop, worse := measure.ScanDuration(s[:comma]); worse == nil && stop == comma {
			m, end, bad = w, comma, nil
		}
	}
	if bad != nil {
		if strings.Trim(s, "0:. ") == "" {
			bad.Help = "Leave the line out where no time was spent."
		}
		if p := peopleFirst.FindStringSubmatch(s); p != nil {
			if _, _, worse := measure.ScanDuration(p[2]); worse == nil {
				bad.Help = fmt.Sprintf("Write \"%s; hands %s\".", p[2], p[1])
				bad.Start, bad.End = 0, len(s)
			}
		}
		return nil, 0, bad
	}
	rest, clock := s[end:], clockTimes.MatchString(s[:end])
	if first := strings.TrimLeft(rest, ", ("); !clock && (first == "" || strings.IndexByte("bBtTeElLmMwWnN-\xe2", first[0]) < 0) {
		return m, end, nil // none of the patterns, which take longer to tell
	}
	if p := people.FindStringSubmatchIndex(rest); p != nil {
		words := strings.TrimRight(" "+strings.TrimLeft(rest[p[3]:], " ,.)"), " ")
		help := fmt.Sprintf("Write \"%s%s; hands 2\" if two people worked as long each.", s[:end], words)
		if strings.EqualFold(rest[p[2]:p[3]], "twice") {
			help = fmt.Sprintf("Write \"%s%s\", the time in all.", 2*m, words)
		}
		return nil, 0, &source.Malformed{End: len(s), Why: "it does not say how long in all", Help: help}
	}
	off := takenOff.FindStringSubmatchIndex(rest)
	if off == nil && clock {
		off = breakIn.FindStringSubmatchIndex(rest)
	}
	switch {
	case off == nil && noLength.MatchString(rest):
		return nil, 0, &source.Malformed{Start: end, End: len(s), Why: "it does not say how long the break was", Help: fmt.Sprintf("Write its length too, as in \"%s less 30m lunch\".", s[:end])}
	case off == nil:
		return m, end, nil
	}
	from, to := group(off)
	pause := lengthIn(rest[from:to])
	if pause >= m {
		return nil, 0, &source.Malformed{Start: end + from, End: end + to, Why: "the break is as long as the work", Help: "Write the time worked."}
	}
	return m - pause, end, nil
}

var clockTimes = regexp.MustCompile(`^[0-9]+:[0-9]+[^0-9]+[0-9]+:`)

func lengthIn(s string) measure.Minutes {
	if m, bad := measure.ParseDuration(s); bad == nil {
		return m
	}
	switch s = strings.ToLower(s); {
	case strings.Contains(s, "half"):
		return 30
	case strings.Contains(s, "quarter"):
		return 15
	}
	return 60
}

// readDate reads a date; one without a year is near the session's, or ahead of it.
func readDate(ahead bool) func(context, string) (any, int, *source.Malformed) {
	return func(c context, s string) (any, int, *source.Malformed) {
		d, bad := measure.ReadDate(s, measure.Near{Day: c.day, Ahead: ahead})
		return d, len(s), bad
	}
}

func readDue(c context, s string) (any, int, *source.Malformed) {
	d, bad := measure.ReadDate(s, measure.Near{Day: c.day, Ahead: true})
	if bad == nil {
		return Due{Date: d}, len(s), nil
	}
	if q, notDistance := measure.ParseDistance(s); notDistance == nil {
		return Due{Distance: q}, len(s), nil
	}
	if bad.Why == "it is not written YYYY-MM-DD" && !strings.Contains(s, "-") {
		bad = &source.Malformed{End: len(s), Why: "it is neither a date nor a distance",
			Help: "Write a date such as 2026-05-30, or a distance such as 500 km."}
	}
	return nil, len(s), bad
}
