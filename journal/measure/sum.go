package measure

import (
	"regexp"
	"strings"

	"guidecoat/journal/source"
)

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
	m, end, bad := scanRange(text)
	if end == 0 && bad == nil {
		m, end, bad = scanLength(text)
	}
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
