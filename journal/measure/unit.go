package measure

import (
	"regexp"
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Kind is what a unit measures. Only values of one kind can be compared.
type Kind string

// The kinds of quantity a workshop measures. Length is of parts, Distance of journeys.
const (
	Length      Kind = "length"
	Distance    Kind = "distance"
	Torque      Kind = "torque"
	Pressure    Kind = "pressure"
	Temperature Kind = "temperature"
	Voltage     Kind = "voltage"
	Current     Kind = "current"
	Resistance  Kind = "resistance"
	Angle       Kind = "angle"
	Volume      Kind = "volume"
	Mass        Kind = "mass"
	Speed       Kind = "speed"
	Percentage  Kind = "percentage"
	Force       Kind = "force"
	Power       Kind = "power"
	Rotation    Kind = "rotation"
	Charge      Kind = "charge"
)

// A Unit is one way to measure a kind of quantity. Units are comparable; the zero Unit is none.
type Unit struct {
	Symbol string
	Kind   Kind
}

// Units that are asked for by themselves.
var (
	Mile    = Unit{"mi", Distance}
	percent = Unit{"%", Percentage}
)

// LookupUnit returns the unit of a name such as "mm", "lb-ft" or "imp gal".
func LookupUnit(name string) (Unit, bool) {
	u, ok := unitsByName[sameLetters.Replace(name)]
	return u, ok
}

// A scale leads to the base of a kind: (value + offset) × num / den, all exact.
type scale struct{ num, den, offset decimal.Decimal }

// A unitRow is one unit: its kind, its names (_ for a space), the first the symbol, its size in the base as num/den.
type unitRow struct {
	kind               Kind
	names              string
	num, den, addFirst string
}

// unitRows is the one place where a unit is defined. The factors are exact
// definitions: inch, pound, gallons and standard gravity as in NIST Special
// Publication 811, Appendix B.8, whose seven-digit factors they round to. Those
// of pound-force are products of them: lbf·ft = 0.45359237 × 9.80665 × 0.3048 N·m;
// psi = 0.45359237 × 9.80665 N over 0.0254² m²; hp = 550 lbf·ft a second, and the
// metric PS 75 kgf·m a second. A quart is a quarter of its gallon.
var unitRows = []unitRow{
	{Length, "mm mms millimetres millimeters", "1", "1", "0"},
	{Length, "cm", "10", "1", "0"},
	{Length, "m", "1000", "1", "0"},
	{Length, "in inch inches", "25.4", "1", "0"},
	{Length, "thou", "0.0254", "1", "0"},
	{Length, "µm um", "0.001", "1", "0"},
	{Distance, "km kms KM kilometre kilometres kilometer kilometers", "1", "1", "0"},
	{Distance, "mi mile miles Miles", "1.609344", "1", "0"},
	{Torque, "N·m Nm N.m N-m N_m NM nm newton_metres newton-metres newton_meters", "1", "1", "0"},
	{Torque, "lbf·ft lbf-ft lbf.ft lbf_ft lb·ft lb-ft lb.ft lb_ft lbft lbs-ft lbs_ft ft·lbf ft-lbf ft.lbf ft·lb ft-lb ft.lb ft_lb ftlb ft-lbs ft_lbs ftlbs foot-pounds foot_pounds", "1.3558179483314004", "1", "0"},
	{Torque, "lbf·in lbf-in lbf.in lbf_in lb·in lb-in lb.in in·lbf in-lbf in.lbf in·lb in-lb in.lb in_lb in-lbs inch-pounds", "1.3558179483314004", "12", "0"},
	{Torque, "kgf·m kgf-m kgf.m kgf_m kgm kg-m kg·m", "9.80665", "1", "0"},
	{Pressure, "bar bars Bar BAR", "100", "1", "0"},
	{Pressure, "kPa kpa KPa", "1", "1", "0"},
	{Pressure, "psi PSI lb/in² lbf/in²", "4.4482216152605", "0.64516", "0"},
	{Pressure, "kgf/cm² kgf/cm2", "98.0665", "1", "0"},
	{Pressure, "Pa", "0.001", "1", "0"},
	{Pressure, "mbar hPa", "0.1", "1", "0"},
	{Pressure, "MPa", "1000", "1", "0"},
	{Temperature, "°C degC deg_C C", "1", "1", "0"},
	{Temperature, "°F degF deg_F F", "5", "9", "-32"},
	{Voltage, "V v volt volts", "1", "1", "0"},
	{Voltage, "mV", "0.001", "1", "0"},
	{Current, "A amp amps ampere amperes", "1", "1", "0"},
	{Current, "mA", "0.001", "1", "0"},
	{Resistance, "Ω ohm ohms", "1", "1", "0"},
	{Resistance, "kΩ kohm", "1000", "1", "0"},
	{Resistance, "MΩ Mohm", "1000000", "1", "0"},
	{Angle, "° deg degs degree degrees", "1", "1", "0"},
	{Angle, "′ arcmin '", "1", "60", "0"},
	{Volume, "L l litre litres liter liters ltr", "1", "1", "0"},
	{Volume, "ml mL", "0.001", "1", "0"},
	{Volume, "US_gal US_gallon US_gallons", "3.785411784", "1", "0"},
	{Volume, "imp_gal imp_gallon imp_gallons", "4.54609", "1", "0"},
	{Volume, "cm³ cm3 cc", "0.001", "1", "0"},
	{Volume, "US_qt US_quart US_quarts", "0.946352946", "1", "0"},
	{Volume, "imp_qt imp_quart imp_quarts", "1.1365225", "1", "0"},
	{Mass, "kg kilo kilos", "1", "1", "0"},
	{Mass, "g", "0.001", "1", "0"},
	{Mass, "lb lbs", "0.45359237", "1", "0"},
	{Speed, "km/h", "1", "1", "0"},
	{Speed, "mph", "1.609344", "1", "0"},
	{Percentage, "%", "1", "1", "0"},
	{Percentage, "ppm", "0.0001", "1", "0"},
	{Force, "N", "1", "1", "0"},
	{Force, "kN", "1000", "1", "0"},
	{Force, "kgf", "9.80665", "1", "0"},
	{Force, "lbf", "4.4482216152605", "1", "0"},
	{Power, "kW", "1", "1", "0"},
	{Power, "W", "0.001", "1", "0"},
	{Power, "PS", "0.73549875", "1", "0"},
	{Power, "hp bhp", "0.74569987158227022", "1", "0"},
	{Rotation, "rpm r/min", "1", "1", "0"},
	{Charge, "Ah", "1", "1", "0"},
}

// sameLetters turns characters that look alike into the ones the table uses.
var sameLetters = strings.NewReplacer("\u03bc", "\u00b5", "\u2126", "\u03a9", "\u22c5", "\u00b7")

var unitsByName, unitNames, scales = func() (map[string]Unit, []string, map[Unit]scale) {
	units, scales := map[string]Unit{}, map[Unit]scale{}
	var names []string
	for _, row := range unitRows {
		var unit Unit
		for name := range strings.FieldsSeq(row.names) {
			name = strings.ReplaceAll(name, "_", " ")
			if unit.Symbol == "" {
				unit = Unit{Symbol: name, Kind: row.kind}
			}
			units[name] = unit
			names = append(names, name)
		}
		scales[unit] = scale{
			num:    decimal.RequireFromString(row.num),
			den:    decimal.RequireFromString(row.den),
			offset: decimal.RequireFromString(row.addFirst),
		}
	}
	return units, names, scales
}()

// ManualUnits returns the table of units, in Markdown.
func ManualUnits() string {
	var b strings.Builder
	b.WriteString("| kind | units |\n|---|---|")
	for _, rows := range pick.Groups(unitRows, func(row unitRow) Kind { return row.kind }) {
		symbols := pick.Map(rows, func(row unitRow) string {
			symbol, _, _ := strings.Cut(row.names, " ")
			return "`" + strings.ReplaceAll(symbol, "_", " ") + "`"
		})
		b.WriteString("\n| " + string(rows[0].kind) + " | " + strings.Join(symbols, ", ") + " |")
	}
	return b.String()
}

func malformed(start, end int, why, help string) *source.Malformed {
	return &source.Malformed{Start: start, End: end, Why: why, Help: help}
}

// sure is the complaint about what can only be meant in one way.
func sure(start, end int, why, instead string) *source.Malformed {
	return &source.Malformed{Start: start, End: end, Why: why, Help: "write " + instead, Instead: instead}
}

// widened returns the complaint about a number as one about all up to that offset.
func widened(m *source.Malformed, text string, end int) *source.Malformed {
	if end > m.End {
		if m.Instead != "" {
			m.Instead += text[m.End:end]
		}
		m.End = end
	}
	return m
}

var manyTimes = regexp.MustCompile(`^[-–—−/][0-9]`)

// runsOn is the complaint about what touches a duration that ends at offset at.
func runsOn(text string, at int) *source.Malformed {
	bad := number.Touching(text, at, "duration")
	if bad != nil && manyTimes.MatchString(text[at:]) {
		bad.Why, bad.Help = "that is no part of it", "write one length of time, or when it began and ended, as in 19:30-21:15"
	}
	return bad
}

// whole reads text with scan, which must use all of it but for spaces around it.
func whole[T any](text, what string, scan func(string) (T, int, *source.Malformed)) (T, *source.Malformed) {
	var none T
	lead := number.Spaces(text, 0)
	v, end, bad := scan(text[lead:])
	if bad != nil {
		return none, bad.Shifted(lead)
	}
	if rest := number.Spaces(text, lead+end); rest < len(text) {
		return none, malformed(rest, len(text), "something follows the "+what, "leave only the "+what+" here")
	}
	return v, nil
}
