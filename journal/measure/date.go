// Package measure reads dates, durations, distances and measured values as
// builders type them, and compares and converts them exactly.
package measure

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// A Date is a day, without time or place, as the number yyyymmdd; dates compare with <. The zero Date is none.
type Date int32

// The years a note can be about. Outside them a date is a slip of the hand.
const firstYear, lastYear = 1900, 2199

// NewDate returns that day, or the zero Date where the calendar has none; years from 1 to 9999.
func NewDate(year int, month time.Month, day int) Date {
	if year < 1 || year > 9999 {
		return 0
	}
	t := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	if y, m, d := t.Date(); y != year || m != month || d != day {
		return 0
	}
	return FromTime(t)
}

func FromTime(t time.Time) Date {
	y, m, d := t.Date()
	return Date(y*10000 + int(m)*100 + d)
}

// ParseDate reads YYYY-MM-DD (ISO 8601), a day that exists, from 1900 to 2199.
func ParseDate(text string) (Date, *source.Malformed) {
	var part [3]int // year, month, day
	field := 0
	ok := len(text) == len("2026-04-11")
	for i := 0; ok && i < len(text); i++ {
		switch {
		case i == 4 || i == 7:
			ok = text[i] == '-'
			field++
		case '0' <= text[i] && text[i] <= '9':
			part[field] = part[field]*10 + int(text[i]-'0')
		default:
			ok = false
		}
	}
	year, month, day := part[0], time.Month(part[1]), part[2]
	switch {
	case !ok:
		return 0, malformed(0, len(text), "it is not written YYYY-MM-DD", "write year, month and day with all their digits, as in 2026-04-11")
	case year < firstYear || year > lastYear:
		return 0, malformed(0, 4, fmt.Sprintf("the year is not between %d and %d", firstYear, lastYear), "check the year")
	case month < 1 || month > 12:
		return 0, malformed(5, 7, "there is no such month", "months go from 01 to 12, and stand before the day")
	}
	date := NewDate(year, month, day)
	if date == 0 {
		return 0, malformed(8, 10, fmt.Sprintf("%s %d has no such day", month, year), "check the day")
	}
	return date, nil
}

func (d Date) parts() (year int, month time.Month, day int) {
	return int(d) / 10000, time.Month(int(d) / 100 % 100), int(d) % 100
}

// String returns YYYY-MM-DD, or "" for none.
func (d Date) String() string {
	if d == 0 {
		return ""
	}
	y, m, day := d.parts()
	two := func(n int) (tens, ones byte) { return byte('0' + n/10), byte('0' + n%10) } // fmt takes ten times as long
	var b [10]byte
	b[0], b[1] = two(y / 100)
	b[2], b[3] = two(y % 100)
	b[4], b[7] = '-', '-'
	b[5], b[6] = two(int(m))
	b[8], b[9] = two(day)
	return string(b[:])
}

// Time returns the midnight in UTC that begins the day, or the zero time for none.
func (d Date) Time() time.Time {
	if d == 0 {
		return time.Time{}
	}
	y, m, day := d.parts()
	return time.Date(y, m, day, 0, 0, 0, 0, time.UTC)
}

// AddDays returns the day n days later, or earlier for a negative n.
func (d Date) AddDays(n int) Date {
	if d == 0 {
		return 0
	}
	return FromTime(d.Time().AddDate(0, 0, n))
}

// InReach returns the day, or the zero Date where no note can be about it.
func (d Date) InReach() Date {
	if year, _, _ := d.parts(); year < firstYear || year > lastYear {
		return 0
	}
	return d
}

// DaysUntil returns how many days after d the other is. Both must be dates.
func (d Date) DaysUntil(other Date) int {
	const day = 24 * 60 * 60 // in UTC every day has that many seconds
	return int((other.Time().Unix() - d.Time().Unix()) / day)
}

// The ways people write a date. Names of months are those of CLDR, and "Sept".
var (
	yearFirst  = regexp.MustCompile(`^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})$`)
	dayFirst   = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?(?: of)?[-/. ]{0,2}([a-z]{3,9})\.?(?:,?[-/ ]?(\d{4}))?$`)
	monthFirst = regexp.MustCompile(`^([a-z]{3,9})\.? ?(\d{1,2})(?:st|nd|rd|th)?(?:,? (\d{4}))?$`)
	inFigures  = regexp.MustCompile(`^(\d{1,2})[-/. ](\d{1,2})\.?(?:[-/. ]?(\d{4}|\d{2}))?$`)
	dayWords   = regexp.MustCompile(`^(?:(last|next|this|on|coming) )*(today|tonight|tomorrow|yesterday|(?:mon|tues?|wednes|wed|thurs?|fri|satur|sat|sun)(?:day)?)$`)
	weekday    = regexp.MustCompile(`^(mon|tue|wed|thu|fri|sat|sun)[a-z]*,? +`)
)

// A Near is the day from which a date without a year is understood: the nearest, or Ahead the first after it.
type Near struct {
	Day   Date
	Ahead bool
}

// ReadDate reads `2026-08-20`, `20 Aug 2026`, `1 June`, `20/8`. For `5/4` it offers both readings.
func ReadDate(text string, near Near) (Date, *source.Malformed) {
	d, bad := ParseDate(text)
	if bad == nil {
		return d, nil
	}
	words := strings.ToLower(text)
	day := weekday.FindString(words)
	words = words[len(day):]
	var list []Date
	yearless := false
	add := func(year string, month time.Month, day string) {
		n, y := atoi(day), atoi(year)
		switch {
		case year == "":
			yearless = true
			if d := near.date(month, n); d != 0 {
				list = append(list, d)
			}
			return
		case len(year) == 2:
			y += 2000
		}
		if d := NewDate(y, month, n); d != 0 && y >= firstYear && y <= lastYear && (len(list) == 0 || list[0] != d) {
			list = append(list, d)
		}
	}
	if m := yearFirst.FindStringSubmatch(words); m != nil {
		add(m[1], time.Month(atoi(m[2])), m[3])
	} else if m := dayFirst.FindStringSubmatch(words); m != nil {
		add(m[3], monthNamed(m[2]), m[1])
	} else if m := monthFirst.FindStringSubmatch(words); m != nil {
		add(m[3], monthNamed(m[1]), m[2])
	} else if m := inFigures.FindStringSubmatch(words); m != nil {
		add(m[3], time.Month(atoi(m[2])), m[1])
		add(m[3], time.Month(atoi(m[1])), m[2])
		if len(m[3]) == 2 {
			add(m[1], time.Month(atoi(m[2])), m[3])
		}
	}
	switch {
	case len(list) == 0 && yearless && near.Day == 0:
		return 0, malformed(0, len(text), "it does not say which year", "write year, month and day, as in 2026-04-11")
	case len(list) == 0:
		if d := near.dayInWords(strings.ToLower(text)); d != 0 {
			return 0, malformed(0, len(text), "it does not say which day",
				fmt.Sprintf("write %s if %s, %s is meant", d, d.Time().Weekday(), strings.TrimSpace(d.Time().Format("_2 January"))))
		}
		return 0, bad
	case len(list) > 1 && list[0] != list[1]:
		return 0, malformed(0, len(text), "it can be read in two ways", "write "+list[0].String()+" or "+list[1].String())
	case day != "" && !strings.HasPrefix(strings.ToLower(list[0].Time().Weekday().String()), day[:3]):
		return 0, malformed(0, len(text), fmt.Sprintf("%s is a %s", list[0], list[0].Time().Weekday()), "check the day, or leave the weekday out")
	}
	return list[0], nil
}

// date is the day of that month that is understood where no year is written.
func (n Near) date(month time.Month, day int) Date {
	if n.Day == 0 || month == 0 {
		return 0
	}
	year, _, _ := n.Day.parts()
	var best Date
	for y := year - 1; y <= year+8; y++ { // 29 February comes after eight years at the latest
		d := NewDate(y, month, day)
		if d == 0 || n.Ahead && d < n.Day {
			continue
		}
		if best == 0 || abs(n.Day.DaysUntil(d)) < abs(n.Day.DaysUntil(best)) {
			best = d
		}
	}
	return best
}

// dayInWords is the day that `tomorrow` or `last friday` means, seen from Day: a weekday is ahead or behind as Ahead
// says, unless it does itself. 0 for any other words.
func (n Near) dayInWords(words string) Date {
	m := dayWords.FindStringSubmatch(words)
	if m == nil || n.Day == 0 {
		return 0
	}
	away := 0
	switch m[2] {
	case "today", "tonight":
	case "tomorrow":
		away = 1
	case "yesterday":
		away = -1
	default:
		step := pick.Either(m[1] == "next" || m[1] == "coming" || n.Ahead && m[1] != "last", 1, -1)
		for away = step; !strings.EqualFold(n.Day.AddDays(away).Time().Weekday().String()[:3], m[2][:3]); {
			away += step
		}
	}
	return n.Day.AddDays(away)
}

func abs(n int) int { return max(n, -n) }

func monthNamed(name string) time.Month {
	for m := time.January; m <= time.December; m++ {
		if long := strings.ToLower(m.String()); name == long || name == long[:3] || name == "sept" && m == time.September {
			return m
		}
	}
	return 0
}

// A Span is the days from one to another, both included.
type Span struct{ From, To Date }

// apart are the ways to write a span of days.
var apart = []string{"..", "…", " to ", " until ", " till ", " – ", "–", " - "}

// ScanSpan reads days from one to another, as in 2026-07-01..2026-07-14.
func ScanSpan(text string, date func(string) (Date, *source.Malformed)) (Span, *source.Malformed) {
	const help = "write its first and its last day, as in 2026-07-01..2026-07-14"
	at, mark := -1, ""
	for _, m := range apart {
		if i := strings.Index(text, m); i >= 0 && at < 0 {
			at, mark = i, m
		}
	}
	if at < 0 {
		return Span{}, malformed(0, len(text), "it is one day or has no end", help)
	}
	end := at + len(mark)
	if strings.TrimSpace(text[end:]) == "" || strings.TrimSpace(text[:at]) == "" {
		return Span{}, malformed(0, len(text), "it has no "+pick.Either(strings.TrimSpace(text[:at]) == "", "beginning", "end"), help)
	}
	var s Span
	for i, part := range []string{text[:at], text[end:]} {
		d, bad := date(strings.TrimSpace(part))
		if bad != nil {
			lead := number.Spaces(part, 0) + []int{0, end}[i]
			return Span{}, bad.Shifted(lead)
		}
		*[]*Date{&s.From, &s.To}[i] = d
	}
	if s.To < s.From {
		return Span{}, malformed(0, len(text), "it ends before it begins", help)
	}
	return s, nil
}

// Merge returns spans in order of their days, those that touch as one.
func Merge(spans []Span) []Span {
	list := slices.Clone(spans)
	slices.SortFunc(list, func(a, b Span) int { return int(a.From) - int(b.From) })
	var merged []Span
	for _, s := range list {
		if n := len(merged); n > 0 && s.From <= merged[n-1].To.AddDays(1) {
			merged[n-1].To = max(merged[n-1].To, s.To)
		} else {
			merged = append(merged, s)
		}
	}
	return merged
}
