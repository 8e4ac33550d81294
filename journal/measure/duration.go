package measure

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/near"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

type Minutes int

// Day is the longest time one line may hold.
const Day Minutes = 24 * 60

// String returns "3h 40m", "3h" or "40m", which reads back as the same.
func (m Minutes) String() string {
	switch hours, minutes := m/60, m%60; {
	case hours == 0:
		return fmt.Sprintf("%dm", minutes)
	case minutes == 0:
		return fmt.Sprintf("%dh", hours)
	default:
		return fmt.Sprintf("%dh %dm", hours, minutes)
	}
}

var (
	hourWords   = []string{"h", "hr", "hrs", "hour", "hours"}
	minuteWords = []string{"m", "min", "mins", "minute", "minutes"}
	timeWords   = slices.Concat(hourWords, minuteWords)
)

const durationHelp = "write hours and minutes, as in 3h40, 40m or 3.5h, or a clock range, as in 19:30-21:15"

// ScanDuration reads the duration at the start of text: 3h40, 40m, 3.5h, 2 hours, 3:40, PT3H40M (ISO 8601), or a clock
// range, which may run past midnight. Fractions of a minute round half up; more than 24 hours are malformed.
func ScanDuration(text string) (Minutes, int, *source.Malformed) {
	m, end, bad := scanAny(text)
	if bad != nil {
		if better := otherwise(text); better != nil {
			return 0, 0, better
		}
	}
	if bad != nil || joins.MatchString(text[end:]) {
		if better := asSum(text); better != nil {
			return 0, 0, better
		}
	}
	switch {
	case bad != nil:
		return 0, 0, bad
	case m == 0:
		return 0, 0, malformed(0, end, "it is no time at all", "write how long it took, or leave the line out")
	case m > Day:
		return 0, 0, malformed(0, end, "it is over 24 hours", overADay(text[:end]))
	}
	if bad := asProduct(text, m, end); bad != nil {
		return 0, 0, bad
	}
	return m, end, nil
}

// scanAny reads a clock range or any other duration, of any length.
func scanAny(text string) (Minutes, int, *source.Malformed) {
	if m, end, bad := scanRange(text); end > 0 || bad != nil {
		return m, end, bad
	}
	return scanLength(text)
}

// ParseDuration reads text that is a duration and nothing else, but for spaces around it.
func ParseDuration(text string) (Minutes, *source.Malformed) {
	return whole(text, "duration", ScanDuration)
}

// ParseThreeHours reads best, likely and worst, or one for all: hours (4, 6.5) or durations (3h40), which do not fall.
func ParseThreeHours(text string) ([3]Minutes, *source.Malformed) {
	return number.Three(text, "4 6.5 9", parseHours, func(a, b Minutes) bool { return a < b })
}

// parseHours reads a plain number of hours or a duration without spaces.
func parseHours(text string) (Minutes, *source.Malformed) {
	if n, bad := number.Scan(text); bad == nil && n.End == len(text) {
		return minutes(n.Value, 60), nil
	}
	return whole(text, "time", scanLength)
}

// minutes returns value times the minutes of its unit, rounded half up to whole minutes.
func minutes(value decimal.Decimal, unit int64) Minutes {
	return Minutes(value.Mul(decimal.NewFromInt(unit)).Round(0).IntPart())
}

// rangeInWords is the rest of a clock range: "19:30 to 21:15" is no 19 hours.
var rangeInWords = regexp.MustCompile(`^ *(?:to|until|'?till?) *(\d{1,2}:\d{2})`)

// scanLength reads any duration but a clock range, of any length.
func scanLength(text string) (Minutes, int, *source.Malformed) {
	if len(text) > 1 && text[0] == 'P' && (text[1] == 'T' || number.Begins(text[1:])) {
		return scanISO(text)
	}
	if sign, _ := number.Sign(text); sign > 0 && number.Begins(text[sign:]) {
		return 0, 0, malformed(0, number.WordEnd(text, 0), "it has a sign", "write the duration without it")
	}
	if hours, minute, end := clock(text); end > 0 {
		if m := rangeInWords.FindStringSubmatchIndex(text[end:]); m != nil {
			return 0, 0, sure(0, end+m[1], "a clock range is written with a dash", text[:end]+"-"+text[end+m[2]:end+m[3]])
		}
		return Minutes(hours*60 + minute), end, runsOn(text, end)
	}
	if looksLikeClock(text) {
		return 0, 0, malformed(0, number.WordEnd(text, 0), "it is not hours and minutes", "minutes go from 00 to 59, as in 3:40")
	}
	n, bad := number.Scan(text)
	if bad != nil {
		bad = widened(bad, text, number.WordEnd(text, 0))
		if !number.Begins(text) && !strings.HasPrefix(text, ".") {
			bad.Help = durationHelp
		}
		return 0, 0, bad
	}
	unitStart := number.Spaces(text, n.End)
	unit := word(text[unitStart:])
	end := unitStart + len(unit)
	switch {
	case slices.Contains(minuteWords, unit):
		return minutes(n.Value, 1), end, runsOn(text, end)
	case !slices.Contains(hourWords, unit):
		return 0, 0, unknownTime(text, n.End, unitStart)
	}
	m := minutes(n.Value, 60)
	more, moreEnd, bad := scanMinutesAfter(text, end, m)
	switch {
	case bad != nil:
		return 0, 0, bad
	case moreEnd == 0:
		return m, end, runsOn(text, end)
	case n.Places > 0:
		return 0, 0, malformed(0, moreEnd, "a fraction of an hour and minutes both stand in it", "write one of them, as in 3.5h or 3h30")
	}
	return m + more, moreEnd, runsOn(text, moreEnd)
}

// scanMinutesAfter reads the minutes behind hours, or returns 0: in "3h 40 bolts" the 40 is description.
func scanMinutesAfter(text string, at int, hours Minutes) (Minutes, int, *source.Malformed) {
	start := number.Spaces(text, at)
	digits := digitsAt(text[start:])
	if digits == 0 {
		return 0, 0, nil
	}
	end := start + digits
	unitStart := number.Spaces(text, end)
	unit := word(text[unitStart:])
	after := text[unitStart+len(unit):]
	joined := digitsAt(after) > 0 || strings.HasPrefix(after, "-") // "40 m8 bolts", "40 min-max"
	hasUnit := slices.Contains(minuteWords, unit) && !joined
	switch {
	case !hasUnit && start > at && end == len(text):
		return 0, 0, malformed(start, end, "the number after the hours has no unit", "write minutes as in 3h40 or 3h 40m")
	case !hasUnit && start > at:
		return 0, 0, nil
	case digits > 2 || atoi(text[start:end]) > 59:
		help := "check for digits typed twice"
		if digits < 4 {
			help = "write " + (hours + Minutes(atoi(text[start:end]))).String() + " if so many are meant"
		}
		return 0, 0, malformed(start, end, "the minutes after hours go up to 59", help)
	}
	if hasUnit {
		return Minutes(atoi(text[start:end])), unitStart + len(unit), nil
	}
	return Minutes(atoi(text[start:end])), end, nil
}

// overADay helps with a length of over 24 hours: 35h may have been 3.5h.
func overADay(length string) string {
	const help = "write one line for each day"
	if digits := digitsAt(length); digits == 2 && slices.Contains(hourWords, strings.TrimSpace(length[digits:])) && length[1] != '0' {
		return fmt.Sprintf("%s, or %s.%s if a point was lost", help, length[:1], length[1:])
	}
	return help
}

// unknownTime is the complaint about what follows a number that has no unit of time.
func unknownTime(text string, numberEnd, unitStart int) *source.Malformed {
	unit := word(text[unitStart:])
	if unit == "" && unitStart == numberEnd && numberEnd < len(text) {
		return runsOn(text, numberEnd)
	}
	if unit == "" {
		return malformed(0, numberEnd, "the number has no unit of time", durationHelp)
	}
	if unit == "am" || unit == "pm" {
		return malformed(0, unitStart+len(unit), "it is a time of day", "write how long it took, or when it began and ended, as in 19:30-21:15")
	}
	bad := malformed(unitStart, unitStart+len(unit), fmt.Sprintf("%q is not a unit of time", unit), durationHelp)
	if n := text[:numberEnd]; unitStart > numberEnd && len(n) < 5 {
		bad.Help = fmt.Sprintf("write %sh for hours or %sm for minutes", n, n)
		if hours, minutes, point := strings.Cut(n, "."); point && len(minutes) == 2 {
			bad.Help = fmt.Sprintf("write %sh%s for hours and minutes, or %sh for hours and their hundredths", hours, minutes, n)
		}
	}
	if bad.Instead = near.Nearest(unit, timeWords); bad.Instead != "" {
		bad.Help = fmt.Sprintf("the nearest unit is %q", bad.Instead)
	}
	return bad
}

func word(text string) string {
	text = text[:min(len(text), 64)]
	if end := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }); end >= 0 {
		return text[:end]
	}
	return text
}

// Lengths of time in words, and sums of several, are not read. The help says them as they should be.

var (
	inWords    = regexp.MustCompile(`^(?i)(?:(an?|one)|(half an?)|(a quarter|three[ -]quarters)(?: of)? an|(\d{1,2})(?: and a half| ?1/2| ?½)) ?(?:h|hrs?|hours?)\b`)
	joins      = regexp.MustCompile(`^(?:,? (?:and|plus) |, ?| ?[&+] ?)`)
	multiplied = regexp.MustCompile(`^ ?[x×*] ?([2-9])(?:[ ,]|$)`)
	breaks     = regexp.MustCompile(`^(?i)(?: ?\(?\pL* ?(?:lunch|tea|breaks?|breakfast|dinner|supper|coffee|rest|off)\b)`)
	halves     = regexp.MustCompile(`^(?:(a half|half an hour|½)|(a quarter(?: of an hour)?|¼)|(three[ -]quarters(?: of an hour)?|¾))(?:[ ,.]|$)|^(half)$`)
)

// asSum returns the complaint about a length of time in words, or about several that are joined.
func asSum(text string) *source.Malformed {
	text = text[:min(len(text), mostOfASum)]
	sum, end, why := scanWords(text), len(inWords.FindString(text)), "it is not written as hours and minutes"
	if end == 0 {
		if sum, end = oneLength(text); end == 0 {
			return nil
		}
		why = ""
	}
	for {
		join := joins.FindString(text[end:])
		more, length := addend(text[end+len(join):])
		if join == "" || length == 0 {
			break
		}
		if after := end + len(join) + length; breaks.MatchString(text[after:]) {
			return withBreak(sum, more, after)
		}
		sum, end, why = sum+more, end+len(join)+length, "one length of time is added to another"
	}
	if why == "" {
		return nil
	}
	return malformed(0, end, why, "write "+sum.String()+", or a line for each")
}

// withBreak is the complaint about a break behind a length of time.
func withBreak(whole, pause Minutes, end int) *source.Malformed {
	help := "write the time worked"
	if pause < whole {
		help += ", such as " + (whole - pause).String() + " without the break"
	}
	return malformed(0, end, "a break stands behind it", help)
}

const mostOfASum = 200

// asProduct returns the complaint about a length of time that a number behind it multiplies.
func asProduct(text string, m Minutes, end int) *source.Malformed {
	by := multiplied.FindStringSubmatchIndex(text[end:])
	if by == nil {
		return nil
	}
	n := text[end+by[2] : end+by[3]]
	return malformed(0, end+by[3], "a number multiplies it", "write "+(m*Minutes(atoi(n))).String()+", or hands "+n+" as a clause if so many people worked")
}

// scanWords returns the length that words at the start of text say, 0 where they say none.
func scanWords(text string) Minutes {
	m := inWords.FindStringSubmatch(text)
	switch {
	case m == nil:
		return 0
	case m[1] != "":
		return 60
	case m[2] != "":
		return 30
	case strings.EqualFold(m[3], "a quarter"):
		return 15
	case m[3] != "":
		return 45
	}
	return Minutes(atoi(m[4])*60 + 30)
}

// oneLength reads one duration, whatever touches it.
func oneLength(text string) (Minutes, int) {
	if at := strings.IndexByte(text, ','); at >= 0 {
		text = text[:at]
	}
	m, end, bad := scanAny(text)
	if bad != nil {
		return 0, 0
	}
	return m, end
}

// addend reads what may be added to a length of time.
func addend(text string) (Minutes, int) {
	if m := halves.FindStringSubmatchIndex(text); m != nil {
		for i, minutes := range []Minutes{30, 15, 45, 30} {
			if end := m[3+2*i]; end > 0 {
				return minutes, end
			}
		}
	}
	if end := len(inWords.FindString(text)); end > 0 {
		return scanWords(text), end
	}
	return oneLength(text)
}
