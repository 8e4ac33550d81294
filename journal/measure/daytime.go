package measure

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/source"
)

// Times of day in other ways of writing are not read, since 19.30 may be a length of
// time too, but the help says them as they should be.

var otherRange = regexp.MustCompile(`^(\d{1,2})(?:[.:hH]?(\d{2}))?\s{0,2}([aApP]\.?[mM]\.?)?\s{0,2}(?:-|–|—|−|to)\s{0,2}(\d{1,2})(?:[.:hH]?(\d{2}))?\s{0,2}([aApP]\.?[mM]\.?)?(?:\s|,|$)`)

// otherwise returns the complaint about a clock range that is written in another
// way at the start of text, nil where there is none.
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

// bareHours returns the complaint about a range of hours alone, such as 10-12, nil
// where rest gives it a unit.
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
