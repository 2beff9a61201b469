package rig

import (
	"fmt"
	"regexp"
	"strings"

	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// Bounds of a controller. A line of 40 characters still holds four words of a
// block; RS-274/NGC itself stops at 256 (Kramer, Proctor and Messina, The NIST
// RS274NGC Interpreter, version 3, 2000; from memory). Six decimals of a
// millimetre are a nanometre.
const (
	minLineLength, maxLineLength = 40, 256
	maxDecimals                  = 6

	defaultLineLength = 80
	defaultDecimals   = 3
)

// Decode reads a rig file. It returns every default it filled in. The error is
// a fault.List of everything wrong with the file, with lines and columns.
func Decode(file string, data []byte) (Rig, []Default, error) {
	report := &source.Report{File: file}
	var raw Raw
	if !source.Read(data, nil, &raw, report) {
		return Rig{}, nil, report.Faults.Err()
	}
	r := raw.Build(report, "")
	if err := report.Faults.Err(); err != nil {
		return Rig{}, nil, err
	}
	return r, report.Defaults, nil
}

// Build understands a rig that has been read, alone or inside a shot under
// prefix, such as "rig.". Faults and defaults go to the report; the rig is of
// use only if it has no faults.
func (raw Raw) Build(report *source.Report, prefix string) Rig {
	r := Rig{Name: raw.Rig.Text}
	if !raw.Rig.Set {
		r.Name = "unnamed rig"
		report.Default(prefix+"rig", r.Name, "the rig has no name")
	}
	for _, c := range raw.Cautions.Items {
		r.Cautions = append(r.Cautions, strings.Join(strings.Fields(c.Text), " "))
	}
	r.Controller = raw.Controller.build(report, prefix+"controller.")
	if len(raw.Axis) == 0 {
		report.Add(raw.Place, prefix+"axis", "", "is missing", "a rig has at least one axis, such as [axis.rail]")
	}
	for _, name := range source.InOrder(raw.Axis, func(a RawAxis) source.Place { return a.Place }) {
		b := axisBuilder{report, raw.Axis[name], prefix + "axis." + name + "."}
		r.Axes = append(r.Axes, b.build(name))
	}
	raw.letters(report, prefix, r.Axes)
	return r
}

var axisName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_-]{0,31}$`)

// CheckName reports a name that is unfit for an axis: it has to do as a column
// of a table and in the name of a file.
func CheckName(report *source.Report, at source.Place, path, name string) {
	if !axisName.MatchString(name) {
		report.Add(at, path, "", "must be a letter and then at most 31 letters, digits, - or _", `such as "rail"`)
	}
}

func (raw RawController) build(report *source.Report, path string) Controller {
	c := Controller{LineLength: defaultLineLength, Decimals: defaultDecimals}
	if raw.StepRate.Set {
		c.StepRate = stepRate(report, raw.StepRate, path+"step-rate")
	} else {
		report.Default(path+"step-rate", "no limit", "the rig states none")
	}
	if !raw.Feed.Set {
		report.Default(path+"feed", c.Feed.String(), "a block then takes exactly the time it should")
	} else if w, ok := report.Choice(raw.Feed, path+"feed", InverseTime.String(), PerMinute.String()); ok && w == PerMinute.String() {
		c.Feed = PerMinute
	}
	wholeOr(report, raw.LineLength, path+"line-length", minLineLength, maxLineLength, &c.LineLength, "every controller reads as much")
	wholeOr(report, raw.Decimals, path+"decimals", 0, maxDecimals, &c.Decimals, "a micrometre, or a thousandth of a degree")
	return c
}

// wholeOr reads a whole number into value, or records the default it holds.
func wholeOr(report *source.Report, t source.Text, path string, low, high int64, value *int, why string) {
	if !t.Set {
		report.Default(path, fmt.Sprint(*value), why)
		return
	}
	if n, ok := report.Whole(t, path, low, high); ok {
		*value = int(n)
	}
}

// maxStepRate is well above any stepper driver's input.
const maxStepRate = 100_000_000

func stepRate(report *source.Report, t source.Text, path string) float64 {
	q, ok := report.Quantity(t, path, unit.StepRate, unit.Number)
	if ok && (q.Value.Sign() <= 0 || q.Float() > maxStepRate) {
		report.Wrong(t, path, fmt.Sprintf("must be above 0 and at most %d steps/s", maxStepRate), "")
	}
	return q.Float()
}
