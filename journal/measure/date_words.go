package measure

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// The ways people write a date. Names of months are those of CLDR, and "Sept".
var (
	yearFirst  = regexp.MustCompile(`^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})$`)
	dayFirst   = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?(?: of)?[-/. ]{0,2}([a-z]{3,9})\.?(?:,?[-/ ]?(\d{4}))?$`)
	monthFirst = regexp.MustCompile(`^([a-z]{3,9})\.? ?(\d{1,2})(?:st|nd|rd|th)?(?:,? (\d{4}))?$`)
	inFigures  = regexp.MustCompile(`^(\d{1,2})[-/. ](\d{1,2})\.?(?:[-/. ]?(\d{4}|\d{2}))?$`)
	weekday    = regexp.MustCompile(`^(mon|tue|wed|thu|fri|sat|sun)[a-z]*,? +`)
	dayWords   = regexp.MustCompile(`^(?:(last|next|this|on|coming) )*(today|tonight|tomorrow|yesterday|(?:mon|tues?|wednes|wed|thurs?|fri|satur|sat|sun)(?:day)?)$`)
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
		n, _ := strconv.Atoi(day)
		y, _ := strconv.Atoi(year)
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
		add(m[1], monthNumbered(m[2]), m[3])
	} else if m := dayFirst.FindStringSubmatch(words); m != nil {
		add(m[3], monthNamed(m[2]), m[1])
	} else if m := monthFirst.FindStringSubmatch(words); m != nil {
		add(m[3], monthNamed(m[1]), m[2])
	} else if m := inFigures.FindStringSubmatch(words); m != nil {
		add(m[3], monthNumbered(m[2]), m[1])
		add(m[3], monthNumbered(m[1]), m[2])
		if len(m[3]) == 2 {
			add(m[1], monthNumbered(m[2]), m[3])
		}
	}
	fail := func(why, help string) (Date, *source.Malformed) {
		return 0, &source.Malformed{End: len(text), Why: why, Help: help}
	}
	switch {
	case len(list) == 0 && yearless && near.Day == 0:
		return fail("it does not say which year", "write year, month and day, as in 2026-04-11")
	case len(list) == 0:
		if d := near.dayInWords(strings.ToLower(text)); d != 0 {
			return fail("it does not say which day", fmt.Sprintf("write %s if %s, %s is meant", d, d.Time().Weekday(), strings.TrimSpace(d.Time().Format("_2 January"))))
		}
		return 0, bad
	case len(list) > 1 && list[0] != list[1]:
		return fail("it can be read in two ways", "write "+list[0].String()+" or "+list[1].String())
	case day != "" && !strings.HasPrefix(strings.ToLower(list[0].Time().Weekday().String()), day[:3]):
		return fail(fmt.Sprintf("%s is a %s", list[0], list[0].Time().Weekday()), "check the day, or leave the weekday out")
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

func monthNumbered(figures string) time.Month {
	n, _ := strconv.Atoi(figures)
	return time.Month(n)
}

func monthNamed(name string) time.Month {
	for m := time.January; m <= time.December; m++ {
		if long := strings.ToLower(m.String()); name == long || name == long[:3] || name == "sept" && m == time.September {
			return m
		}
	}
	return 0
}
