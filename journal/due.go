package journal

import (
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
)

// A DueRule is a row of the table: work on one of its systems makes the check due, or asks for it beforehand.
type DueRule struct {
	Name    string
	Systems []string // whose work asks for it
	Before  bool     // it is asked for before the work, so nothing is outstanding after it
	Flood   bool     // a flood makes it due, whatever was worked on
	// Equipment is what the vehicle must have for the row to count; "": nothing special.
	Equipment string
	Severity  note.Severity
	// Far is how far to drive between the work and the check; nil where it may be done at once.
	Far     *note.Stretch
	Miles   *note.Stretch // the same said in round miles, where it is
	Does    string        // what is looked at, where the name does not say it
	Because string
	Source  string // where the rule or its figure is published, or that it is common practice
}

const commonPractice = "common practice, no source"

// What a vehicle may have that turns rows of the table on.
const (
	camera           = "camera"
	radar            = "radar"
	stabilityControl = "stability control"
	tyreSensors      = "tyre sensors"
	highVoltage      = "high-voltage"
)

// KnownEquipment are the words that turn rows on; any others are words.
var KnownEquipment = []string{camera, radar, stabilityControl, tyreSensors, highVoltage}

var equipmentCalled = []struct{ name, known string }{
	{"adaptive cruise", radar}, {"esp", stabilityControl}, {"esc", stabilityControl}, {"tpms", tyreSensors}, {"tyre pressure", tyreSensors},
	{"hybrid", highVoltage}, {"ev", highVoltage}, {"phev", highVoltage}, {"electric drive", highVoltage}, {"traction battery", highVoltage},
}

// EquipmentIn returns the equipment that words name, which turns rows on only if it is there in just those words.
func EquipmentIn(words string) string {
	within := func(name string) bool { return strings.Contains(" "+words+" ", " "+name+" ") }
	for _, known := range KnownEquipment {
		if within(known) {
			return known
		}
	}
	for _, also := range equipmentCalled {
		if within(also.name) {
			return also.known
		}
	}
	return ""
}

var builtIn = []DueRule{
	{Name: "steering-check", Systems: []string{"steering"}, Severity: note.Dangerous, Does: "joints tight and locked, from lock to lock, nothing binds",
		Because: "a joint that is loose or binds takes the steering away", Source: commonPractice},
	{Name: "alignment", Systems: []string{"steering", "suspension", "structure"}, Severity: note.Major,
		Because: "the wheels no longer point where they did", Source: commonPractice},
	{Name: "wheel-retorque", Systems: []string{"wheels", "brakes", "steering", "suspension"}, Severity: note.Major, Far: stretch("40 to 80 km"), Miles: stretch("25 to 50 mi"),
		Because: "wheel fixings settle over the first miles", Source: "common practice; BS AU 50-2.7a:1995, followed by 2.7b:2017, asks it of commercial vehicles after 40 to 80 km (25 to 50 miles) or 30 minutes at rest"},
	{Name: "brake-test", Systems: []string{"brakes"}, Severity: note.Dangerous,
		Because: "brakes are unproven until they are tested", Source: commonPractice},
	{Name: "brake-leak-check", Systems: []string{"brakes"}, Severity: note.Dangerous, Does: "every joint that was opened, with the pedal held down",
		Because: "a joint that weeps lets the pedal sink", Source: commonPractice},
	{Name: "fuel-leak-check", Systems: []string{"fuel"}, Severity: note.Dangerous, Does: "every joint that was opened, with the pump running",
		Because: "fuel that drips burns", Source: commonPractice},
	{Name: "coolant-leak-check", Systems: []string{"cooling"}, Severity: note.Minor,
		Because: "a joint that was opened can weep", Source: commonPractice},
	{Name: "refrigerant-check", Systems: []string{"air-conditioning"}, Severity: note.Minor, Does: "by a person licensed for it",
		Because: "refrigerant must not escape, and only few may handle it", Source: commonPractice},
	{Name: "restraint-scan", Systems: []string{"restraints"}, Flood: true, Severity: note.Dangerous,
		Because: "a fault in a belt or airbag circuit shows only in its control unit", Source: commonPractice},
	{Name: "fume-check", Systems: []string{"exhaust"}, Severity: note.Major, Does: "no leak, and no fumes in the cabin",
		Because: "exhaust gas in the cabin is poison that nobody smells in time", Source: commonPractice},
	{Name: "lamp-aim", Systems: []string{"lighting", "structure"}, Severity: note.Major,
		Because: "the beam moves with the lamp and with what it is bolted to", Source: commonPractice},
	{Name: "structure-measure", Systems: []string{"structure"}, Severity: note.Dangerous,
		Because: "a shell that looks straight can still be out at its datum points", Source: commonPractice},
	{Name: "corrosion-protection", Systems: []string{"structure"}, Severity: note.Major,
		Because: "heat burns the protection off inside, where rust begins unseen", Source: commonPractice},
	{Name: "camera-calibration", Systems: []string{"visibility", "steering", "suspension", "structure"}, Equipment: camera, Severity: note.Major,
		Because: "a camera that looks a little aside brakes and steers for the wrong thing", Source: commonPractice},
	{Name: "radar-calibration", Systems: []string{"visibility", "steering", "suspension", "structure"}, Equipment: radar, Severity: note.Major,
		Because: "a radar that looks a little aside brakes for the wrong thing", Source: commonPractice},
	{Name: "steering-angle-reset", Systems: []string{"steering"}, Equipment: stabilityControl, Severity: note.Major,
		Because: "stability control brakes by where it thinks that the wheels point", Source: commonPractice},
	{Name: "tyre-sensor-relearn", Systems: []string{"wheels"}, Equipment: tyreSensors, Severity: note.Minor,
		Because: "the warning has to know which wheel is where", Source: commonPractice},
	{Name: "insulation-test", Systems: []string{highVoltage}, Severity: note.Dangerous,
		Because: "a damaged insulation can put the body at high voltage", Source: insulationSource},
	{Name: "insulation-test", Flood: true, Equipment: highVoltage, Severity: note.Dangerous,
		Because: "water that has got in can put the body at high voltage", Source: insulationSource},
	{Name: "connector-check", Flood: true, Severity: note.Major,
		Because: "plugs that were under water corrode from within", Source: commonPractice},
	{Name: "bearing-check", Flood: true, Severity: note.Major,
		Because: "water washes the grease out of bearings", Source: commonPractice},
	{Name: "fluid-change", Flood: true, Severity: note.Major, Does: "oils, brake fluid and coolant",
		Because: "water gets into every fluid through the breathers", Source: commonPractice},
	{Name: "hv-dead", Systems: []string{highVoltage}, Before: true, Does: "isolated, locked off and proved dead",
		Because: "high voltage kills at a touch", Source: commonPractice},
	{Name: "restraint-wait", Systems: []string{"restraints"}, Before: true, Does: "battery off, and the wait that the vehicle's maker asks for",
		Because: "an airbag can fire for minutes after the battery is off", Source: "common practice; makers' manuals ask for one to ten minutes, so the number comes from the vehicle's own"},
	{Name: "weld-ready", Systems: []string{"structure"}, Before: true, Does: "battery and modules off, fuel safe, somebody watching for fire",
		Because: "welding current destroys modules, and sparks light what nobody sees", Source: commonPractice},
}

const insulationSource = "UN R100: at least 100 Ω/V DC and 500 Ω/V AC, 500 where the two are connected, as in most hybrids, unless the AC side is protected; when to test is common practice"

func stretch(text string) *note.Stretch {
	s, _ := note.ParseStretch(text)
	return &s
}

// Stretch is the distance asked for; round miles hold where the odometer reads miles.
func (r DueRule) Stretch(unit measure.Unit) *note.Stretch {
	return pick.Either(r.Miles != nil && unit == measure.Mile, r.Miles, r.Far)
}

// Later words the distance: "40 to 80 km (25 to 50 mi) later".
func (r DueRule) Later() string {
	text := r.Far.String()
	if r.Miles != nil {
		text += " (" + r.Miles.String() + ")"
	}
	return text + " later"
}

func (r DueRule) When() string {
	var when []string
	if r.Systems != nil {
		when = append(when, "work on "+strings.Join(r.Systems, ", "))
	}
	if r.Flood {
		when = append(when, "a flood")
	}
	text := strings.Join(when, "; or ")
	if r.Equipment != "" {
		text += ", where the vehicle has " + r.Equipment
	}
	return text
}

// BuiltInDueRules are the rows that hold for every build.
func BuiltInDueRules() []DueRule { return builtIn }
