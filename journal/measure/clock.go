package measure

import (
	"strings"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"
)

// clock reads H:MM or HH:MM at the start of text. The end is 0 if that is not
// what stands there; hours go up to 24 and minutes to 59, 24:00 being the last.
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

// scanRange reads two times of day with a dash between them. The end is 0 if no
// range stands at the start of text. In "3:40 - 2 bolts" the dash is description.
func scanRange(text string) (Minutes, int, *source.Malformed) {
	hours, minute, fromEnd := clock(text)
	if fromEnd == 0 {
		return 0, 0, nil
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

// scanISO reads P[nD][T[nH][nM][nS]] (ISO 8601, duration with designators). Only
// the last number may have decimals. Years, months and weeks have no place in a
// day's work. Half a minute and more rounds up.
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

// digitsAt returns how many digits stand at the start of text.
func digitsAt(text string) int {
	n := 0
	for n < len(text) && '0' <= text[n] && text[n] <= '9' {
		n++
	}
	return n
}

// atoi returns the value of a few digits.
func atoi(digits string) int {
	n := 0
	for i := range len(digits) {
		n = n*10 + int(digits[i]-'0')
	}
	return n
}
