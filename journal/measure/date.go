// Package measure reads dates, durations, distances and measured values as
// builders type them, and compares and converts them exactly.
package measure

import (
	"fmt"
	"time"

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
	fail := func(start, end int, why, help string) (Date, *source.Malformed) {
		return 0, &source.Malformed{Start: start, End: end, Why: why, Help: help}
	}
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
		return fail(0, len(text), "it is not written YYYY-MM-DD", "write year, month and day with all their digits, as in 2026-04-11")
	case year < firstYear || year > lastYear:
		return fail(0, 4, fmt.Sprintf("the year is not between %d and %d", firstYear, lastYear), "check the year")
	case month < 1 || month > 12:
		return fail(5, 7, "there is no such month", "months go from 01 to 12, and stand before the day")
	}
	date := NewDate(year, month, day)
	if date == 0 {
		return fail(8, 10, fmt.Sprintf("%s %d has no such day", month, year), "check the day")
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

// ISOWeek returns the week of ISO 8601 and the year that it belongs to.
func (d Date) ISOWeek() (year, week int) { return d.Time().ISOWeek() }
