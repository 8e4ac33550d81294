package tongue

import (
	"fmt"
	"strconv"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// Here figures become words, for everything that a page prints.

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"

// Tell says what the program says by itself.
func (t *Tongue) Tell(p speech.Phrase) string { return t.say(p.Parts()) }

// Put is what something is within a sentence.
func (t *Tongue) Put(a any) string {
	switch a := a.(type) {
	case string:
		return a
	case int:
		return t.Grouped(a)
	case speech.Phrase:
		return t.Tell(a)
	case speech.Term:
		return t.Word(string(a))
	case speech.Name:
		return t.Name(string(a))
	case speech.Called:
		return t.Name(string(a))
	case speech.Quote:
		return t.Say("“%s”", string(a))
	case speech.Sum:
		return t.Sum(a.Amount, a.In)
	case measure.Date:
		return t.Day(a)
	case measure.Minutes:
		return t.Minutes(a)
	}
	return t.Figure(fmt.Sprint(a))
}

// Day writes "11 April 2026", "" for none.
func (t *Tongue) Day(d measure.Date) string {
	if d == 0 {
		return ""
	}
	return t.dayOf(d, t.months) + " " + t.Year(d)
}

// dayOf writes "11 April".
func (t *Tongue) dayOf(d measure.Date, months []string) string {
	return t.Say("%d %s", d.Time().Day(), months[d.Time().Month()-1])
}

// ShortDay writes "11 Apr", for where the year stands nearby, or "11 Apr 2026".
func (t *Tongue) ShortDay(d measure.Date, withYear bool) string {
	switch {
	case d == 0:
		return ""
	case withYear:
		return t.dayOf(d, t.shortMonths) + nbsp + t.Year(d)
	}
	return t.dayOf(d, t.shortMonths)
}

// Month writes "April 2026", ShortMonth "Apr" or "Apr 2026", Year "2026", Weekday "Mon".
func (t *Tongue) Month(d measure.Date) string {
	return Title(t.months[d.Time().Month()-1]) + " " + t.Year(d)
}

func (t *Tongue) ShortMonth(d measure.Date, withYear bool) string {
	name := t.shortMonths[d.Time().Month()-1]
	if withYear {
		name += " " + t.Year(d)
	}
	return name
}

func (t *Tongue) Year(d measure.Date) string    { return d.Time().Format("2006") }
func (t *Tongue) Weekday(d measure.Date) string { return t.weekdays[d.Time().Weekday()] }

// Span writes "11 April – 20 July 2026", or one date where both are the same.
func (t *Tongue) Span(from, to measure.Date) string {
	if from == to {
		return t.Day(from)
	}
	begin := t.Day(from)
	if from.Time().Year() == to.Time().Year() {
		begin = t.dayOf(from, t.months)
	}
	return begin + " – " + t.Day(to)
}

// Minutes writes "3 h 40 min", wherever time stands.
func (t *Tongue) Minutes(m measure.Minutes) string {
	switch h, rest := int(m)/60, int(m)%60; {
	case h == 0:
		return t.Say("%d min", rest)
	case rest == 0:
		return t.Say("%d h", h)
	default:
		return t.Say("%d h", h) + " " + t.Say("%d min", rest) // broken there where room is short
	}
}

// Grouped writes "12,345".
func (t *Tongue) Grouped(n int) string { return t.grouped(strconv.Itoa(n)) }

func (t *Tongue) grouped(digits string) string {
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + t.group + digits[at:]
	}
	return digits
}

// Figure writes a figure and its unit with a minus as wide as a figure, and the language's point.
func (t *Tongue) Figure(s string) string {
	b := []byte(s)
	out := strings.Builder{}
	digit := func(i int) bool { return i >= 0 && i < len(b) && b[i] >= '0' && b[i] <= '9' }
	for i, c := range b {
		switch {
		case c == '-' && digit(i+1) && !digit(i-1):
			out.WriteString("−")
		case c == '.' && digit(i-1) && digit(i+1):
			out.WriteString(t.decimal)
		default:
			out.WriteByte(c)
		}
	}
	return out.String()
}

// Distance groups the digits of an odometer: "91352 mi" becomes "91,352 mi".
func (t *Tongue) Distance(s string) string {
	number, unit, _ := strings.Cut(s, " ")
	whole, decimals, point := strings.Cut(number, ".")
	if _, err := strconv.Atoi(whole); err != nil {
		return s
	}
	number = t.grouped(whole)
	if point {
		number += t.decimal + decimals
	}
	return number + nbsp + unit
}

// Sum writes money: "£1,250.00", "1 250,00 €".
func (t *Tongue) Sum(d decimal.Decimal, c money.Currency) string {
	if t.Code == English {
		return t.Figure(strings.Replace(money.Show(d, c), "-", "−", 1))
	}
	sign, figure := "", money.Format(d, c)
	if rest, ok := strings.CutPrefix(figure, "-"); ok {
		sign, figure = "−", rest
	}
	whole, decimals, point := strings.Cut(figure, ".")
	if whole = t.grouped(whole); point {
		whole += t.decimal + decimals
	}
	return sign + whole + nbsp + t.Word(c.Code)
}

// Percent writes a fraction: "24 %".
func (t *Tongue) Percent(f float64) string { return t.Figure(fmt.Sprintf("%.0f%s%%", f*100, nbsp)) }

// Name makes a name readable: "wheel-retorque" is "wheel retorque", "abs-ring" "ABS ring".
func (t *Tongue) Name(name string) string {
	words := strings.Split(name, "-")
	for i, w := range words {
		if acronyms[w] {
			words[i] = strings.ToUpper(w)
		}
	}
	return t.Word(strings.Join(words, " "))
}

// acronyms of the trade that are no words as well. Common practice, no source.
var acronyms = func() map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields("abs acc adas bcm dpf dsc dtc ebs ecm ecu egr eps esp gps hvac maf mot nox obd pcm pcv scr srs tcm tpms usb vin") {
		set[w] = true
	}
	return set
}()

// Title makes the first letter a capital: "rear axle" becomes "Rear axle".
func Title(s string) string {
	for i, r := range s {
		if i == 0 {
			return strings.ToUpper(string(r)) + s[len(string(r)):]
		}
	}
	return s
}
