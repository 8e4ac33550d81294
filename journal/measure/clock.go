package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/near"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// How long and how often: clock ranges, durations of ISO 8601, and what comes again by the day, week, month or year.

// clock reads H:MM or HH:MM, up to 24:00, at the start of text. The end is 0 if that is not what stands there.
func clock(text string) (hours, minute, end int) {
	h := digitsAt(text)
	if h == 0 || h > 2 || !strings.HasPrefix(text[h:], ":") || digitsAt(text[h+1:]) != 2 {
		return 0, 0, 0
	}
	hours, minute = atoi(text[:h]), atoi(text[h+1:h+3])
	if minute > 59 || hours*60+minute > int(Day) {
		return 0, 0, 0
	}
	return hours, minute, h + 3
}

// bareHour is the end of a range without minutes. Nobody works for 18h30 up to a day on end, so that begins one.
var bareHour = regexp.MustCompile(`^ +(?:[-–—]|to|till|until) *([01]?[0-9]|2[0-4])(?:[^0-9:.]|$)`)

// scanRange reads two times with a dash between them, or returns 0. In "3:40 - 2 bolts" it is description.
func scanRange(text string) (Minutes, int, *source.Malformed) {
	hours, minute, fromEnd := clock(text)
	if fromEnd == 0 {
		return 0, 0, nil
	}
	if to := bareHour.FindStringSubmatchIndex(text[fromEnd:]); hours > 12 && to != nil {
		end := fromEnd + to[3]
		return 0, 0, malformed(0, end, "it is a time of day", fmt.Sprintf("write both times with minutes, as in %s-%s:00", text[:fromEnd], text[fromEnd+to[2]:end]))
	}
	at := number.Spaces(text, fromEnd)
	dash, minus := number.Sign(text[at:])
	if !minus {
		return 0, 0, nil
	}
	toStart := number.Spaces(text, at+dash)
	toHours, toMinute, n := clock(text[toStart:])
	touching := at == fromEnd
	switch {
	case n == 0 && (touching || looksLikeClock(text[toStart:])):
		return 0, 0, malformed(toStart, max(number.WordEnd(text, toStart), toStart), "it does not end with a time of day",
			"write both times with minutes, as in 19:30-21:15")
	case n == 0:
		return 0, 0, nil
	case hours == 24:
		return 0, 0, malformed(0, fromEnd, "no day begins at 24:00", "write 0:00 for the midnight that begins a day")
	}
	end := toStart + n
	m := Minutes(toHours*60+toMinute) - Minutes(hours*60+minute)
	if m == 0 {
		return 0, 0, malformed(0, end, "it ends when it begins", "check the times; 24 hours are written 24h")
	}
	if m < 0 {
		m += Day
	}
	return m, end, runsOn(text, end)
}

// looksLikeClock reports whether text begins with digits and a colon.
func looksLikeClock(text string) bool {
	n := digitsAt(text)
	return n > 0 && strings.HasPrefix(text[n:], ":")
}

// isoParts are the designators of an ISO 8601 duration that may stand in it, in order.
var isoParts = []struct {
	designator byte
	time       bool  // after the T
	seconds    int64 // in one
}{
	{'D', false, 24 * 60 * 60}, {'H', true, 60 * 60}, {'M', true, 60}, {'S', true, 1},
}

// scanISO reads P[nD][T[nH][nM][nS]] (ISO 8601). Only the last number may have decimals; half a minute rounds up.
func scanISO(text string) (Minutes, int, *source.Malformed) {
	end := number.WordEnd(text, 0)
	wrong := malformed(0, end, "it is not an ISO 8601 duration", "write it as in PT3H40M, or simply 3h40")
	total := decimal.Zero
	at, next, inTime, decimals := 1, 0, false, false
	for at < end {
		if !inTime && text[at] == 'T' {
			inTime = true
			if at++; at == end {
				return 0, 0, wrong
			}
			continue
		}
		for at+1 < end && text[at] == '0' && number.Begins(text[at+1:]) {
			at++ // ISO 8601 lets numbers be padded: PT03H05M
		}
		n, bad := number.Scan(text[at:end])
		if bad != nil || at+n.End >= end || decimals {
			return 0, 0, wrong
		}
		at += n.End
		for next < len(isoParts) && (isoParts[next].designator != text[at] || isoParts[next].time != inTime) {
			next++
		}
		if next == len(isoParts) {
			return 0, 0, wrong
		}
		total = total.Add(n.Value.Mul(decimal.NewFromInt(isoParts[next].seconds)))
		decimals = n.Places > 0
		at, next = at+1, next+1
	}
	if next == 0 {
		return 0, 0, wrong
	}
	return Minutes(total.DivRound(decimal.NewFromInt(60), 0).IntPart()), end, nil
}

func digitsAt(text string) int {
	n := 0
	for n < len(text) && '0' <= text[n] && text[n] <= '9' {
		n++
	}
	return n
}

func atoi(digits string) int {
	n := 0
	for i := range len(digits) {
		n = n*10 + int(digits[i]-'0')
	}
	return n
}

// Other ways of writing a time are not read, since 19.30 may be a length; the help says them as they should be.

var otherRange = regexp.MustCompile(`^(\d{1,2})(?:[.:hH]?(\d{2}))?\s{0,2}([aApP]\.?[mM]\.?)?\s{0,2}(?:-|–|—|−|to)\s{0,2}(\d{1,2})(?:[.:hH]?(\d{2}))?\s{0,2}([aApP]\.?[mM]\.?)?(?:\s|,|$)`)

// otherwise returns the complaint about a clock range that is written in another way.
func otherwise(text string) *source.Malformed {
	m := otherRange.FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	if m[2]+m[3]+m[5]+m[6] == "" {
		return bareHours(m, text[len(m[0]):])
	}
	if m[6] == "" && (m[3] != "" || m[2] == "" || m[5] == "") {
		return nil
	}
	if m[3]+m[6] == "" && strings.Count(m[0], ":") == 2 { // written as it should be, and wrong otherwise
		return nil
	}
	half := m[3]
	if half == "" && (atoi(m[1])%12 < atoi(m[4])%12 || m[6] == "") { // 7-9pm, but not 11-2pm
		half = m[6]
	}
	from, to := timeOfDay(m[1], m[2], half), timeOfDay(m[4], m[5], m[6])
	if from == "" || to == "" {
		return nil
	}
	return sure(0, len(strings.TrimRight(m[0], " \t,")), "times of day are written with a colon, from 0:00 to 24:00", from+"-"+to)
}

// bareHours returns the complaint about a range of hours alone, such as 10-12.
func bareHours(m []string, rest string) *source.Malformed {
	from, to := atoi(m[1]), atoi(m[4])
	if slices.Contains(timeWords, word(rest)) || from > 23 || to > 24 {
		return nil
	}
	if to <= from && to+12 > from { // from 9 to 5
		to += 12
	}
	return malformed(0, len(strings.TrimRight(m[0], " \t,")), "it has no unit of time",
		fmt.Sprintf("write %d:00-%d:00 if these are times of day, or one length of time, as in 2h", from, to))
}

// timeOfDay is a time of day as it should be written, "" where there is none such.
func timeOfDay(hours, minutes, half string) string {
	h, m := atoi(hours), atoi(minutes)
	if half != "" {
		if h < 1 || h > 12 {
			return ""
		}
		h %= 12
		if strings.EqualFold(half[:1], "p") {
			h += 12
		}
	}
	if m > 59 || h*60+m > int(Day) {
		return ""
	}
	return fmt.Sprintf("%d:%02d", h, m)
}

type Period struct {
	Name   string
	InWeek *big.Rat // how often it comes in a week
}

// periods are those of the notes: a month is 52/12 weeks.
var periods = []Period{
	{"day", big.NewRat(7, 1)}, {"week", big.NewRat(1, 1)}, {"month", big.NewRat(12, 52)}, {"year", big.NewRat(1, 52)},
}

// each matches what comes again, the words that say so, and how often.
var each = regexp.MustCompile(`^(.*?)(?: */ *|\s+(?:a|an|per|each|every)\s+)(\pL+)`)

// ScanEach reads "WHAT a week" at the start of text: what, how often, and where it ends.
func ScanEach(text, example string) (what string, p Period, end int, bad *source.Malformed) {
	m := each.FindStringSubmatchIndex(text)
	if m == nil {
		return "", p, 0, malformed(0, len(text), "it does not say how often", "write a day, a week, a month or a year behind it, as in "+example)
	}
	var names []string
	for _, p := range periods {
		if word := strings.ToLower(text[m[4]:m[5]]); word == p.Name {
			return text[:m[3]], p, m[1], nil
		}
		names = append(names, p.Name)
	}
	help := "write a day, a week, a month or a year"
	if n := near.Nearest(text[m[4]:m[5]], names); n != "" {
		help = "the nearest is \"" + n + "\"; " + help
	}
	return "", p, 0, malformed(m[4], m[5], "\""+text[m[4]:m[5]]+"\" is no length of time that comes again", help)
}

// ScanPace reads how much is worked, such as "6h a week", as minutes a week.
func ScanPace(text string) (*big.Rat, int, *source.Malformed) {
	what, p, end, bad := ScanEach(text, "6h a week")
	if bad != nil {
		return nil, 0, bad
	}
	m, bad := whole(what, "time", scanLength)
	if bad != nil {
		return nil, 0, bad
	}
	pace := new(big.Rat).Mul(big.NewRat(int64(m), 1), p.InWeek)
	switch {
	case m == 0:
		return nil, 0, malformed(0, end, "at a pace of nothing nothing is ever ready", "write how much you work, as in 6h a week, or leave the line out")
	case pace.Cmp(big.NewRat(7*int64(Day), 1)) > 0:
		return nil, 0, malformed(0, end, "a "+p.Name+" has fewer hours", "write how much one person works, as in 6h a week")
	}
	return pace, end, nil
}
