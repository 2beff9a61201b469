// Package measuring walks through the questions that make lines of a rig file: it asks,
// moves the rig by takes alone, and leaves what comes of the answers to
// motion/calibrate. Nothing is written before it was shown.
package measuring

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report"
	"seamrail/export/report/measurereport"
	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
)

// Line is a value of the rig file: where, what was there ("" for nothing), and what is to be.
type Line struct{ Path, Old, New string }

// Found is what one measurement came to.
type Found struct {
	Axis, What string
	Value      calibrate.Estimate
	Unit       string
	Told       []Fact // in words
	Doubts     []string
	Lines      []Line
	Written    bool
	Swept      *Swept // of a sweep
}

// Fact is a figure under a label.
type Fact struct{ Label, Text string }

func (f *Found) tell(label, format string, args ...any) {
	f.Told = append(f.Told, Fact{label, fmt.Sprintf(format, args...)})
}

func (f *Found) doubt(format string, args ...any) {
	f.Doubts = append(f.Doubts, fmt.Sprintf(format, args...))
}

func (f *Found) line(path, old, text string) { f.Lines = append(f.Lines, Line{path, old, text}) }

// Walk is a rig file that is measured.
type Walk struct {
	File        string
	Ask         *Asker
	Port        *Port   // nil: nothing moves, and the readings were made by hand
	Write       bool    // do not ask whether to write
	PixelsPerMM float64 // of the picture at the product; 0 = not known
	Camera      string  // file of the camera, whose shutter is timed
	Record      string  // file of a phone's record
	Sweep       string  // file of when a sweep did what: written with a port, read without

	Keys bool // answers are typed on a terminal, where Enter stops what moves

	data []byte
	rig  rig.Rig
	axis rig.Axis
	hand *hand
}

// way is one thing that can be measured.
type way struct {
	name, words string
	suits       func(rig.Axis) bool
	moves       bool // it cannot be done without a port
	driven      bool // it is of no use on a rig that is set by hand
	ofCamera    bool // it is the camera's, whatever axis carries that
	rescales    bool // what comes of it makes the board count otherwise than the file
	run         func(*Walk) (*Found, error)
}

func isLinear(a rig.Axis) bool { return a.Kind == rig.Linear }
func isRotary(a rig.Axis) bool { return a.Kind == rig.Rotary }
func isAny(rig.Axis) bool      { return true }

// ways are what can be measured of an axis, in the order in which one needs the other.
func ways() []way {
	return []way{
		{"steps", "steps a millimetre, with a ruler", isLinear, false, true, false, true, (*Walk).steps},
		{"turn", "the ratio of a turntable, from marked turns", isRotary, false, true, false, true, (*Walk).turn},
		{"backlash", "play, from a mark approached both ways", isAny, false, false, false, false, (*Walk).backlash},
		{"speed", "the greatest speed, by trial", isAny, true, true, false, false, (*Walk).speed},
		{"acceleration", "the greatest acceleration, by trial", isAny, true, true, false, false, (*Walk).acceleration},
		{"swing", "how what it carries swings, with a phone's record", isAny, false, false, false, false, (*Walk).swing},
		{"shutter", "how late the shutter of the camera is", isAny, false, false, true, false, (*Walk).shutter},
	}
}

// Whats are the names of what can be measured.
func Whats() []string {
	var out []string
	for _, w := range ways() {
		out = append(out, w.name)
	}
	return out
}

// Run measures what was named, "" for what the person chooses, of an axis, "" for each.
// It ends at the first doubt; what was found before it is returned.
func (w *Walk) Run(axis, what string, moving func(stop func()) (release func())) (found []*Found, err error) {
	if err := w.load(); err != nil {
		return nil, err
	}
	plan, err := w.chosen(axis, what)
	if err != nil {
		return nil, err
	}
	if slices.ContainsFunc(plan, func(p planned) bool { return p.way.ofCamera }) {
		if data, err := w.cameraData(); err != nil {
			return nil, err
		} else if err := camera(w.Camera)(data); err != nil {
			return nil, err
		}
	}
	if w.Port != nil {
		if err := w.cautions(); err != nil {
			return nil, err
		}
		if w.hand, err = connect(*w.Port, w.rig, w.Ask.fold); err != nil {
			return nil, err
		}
		if w.Keys {
			w.hand.typed = w.Ask.typed
		}
		kept := w.keep(axis, what)
		release := moving(func() {
			w.Ask.stop()
			w.hand.stop()
		})
		defer func() {
			release()
			if closed := errors.Join(w.hand.world.Close(), kept()); err == nil {
				err = closed
			}
		}()
	}
	for _, p := range plan {
		f, err := w.one(p, what == "")
		if f != nil {
			found = append(found, f)
		}
		if err != nil {
			return found, err
		}
		if f != nil && (len(f.Doubts) > 0 || f.Written && w.hand != nil && p.way.rescales) {
			return found, nil
		}
	}
	return found, w.Ask.unused()
}

// planned is one measurement of one axis.
type planned struct {
	axis rig.Axis
	way  way
}

// chosen are the measurements that were named.
func (w *Walk) chosen(axis, what string) (out []planned, err error) {
	if _, ok := w.rig.Axis(axis); axis != "" && !ok {
		return nil, exit.Misused("there is no axis %q on the rig; it has %s", axis, strings.Join(w.rig.Names(), ", "))
	}
	if what != "" && !slices.Contains(Whats(), what) {
		return nil, exit.Misused("there is no measuring of %q; there is %s", what, strings.Join(Whats(), ", "))
	}
	byHand := !w.rig.Controller.Kind.Driven()
	if byHand && w.Port != nil {
		return nil, exit.Misused("the rig is set and started by hand: leave --port and --virtual out, and answer with what you have read")
	}
	for _, a := range w.rig.Axes {
		for _, k := range ways() {
			named := (axis == "" || a.Name == axis) && (what == "" || k.name == what)
			switch {
			case !named:
			case !k.suits(a) && axis != "" && what != "":
				return nil, exit.Misused("axis %s is %s: measure its %s", a.Name, a.Kind, map[rig.Kind]string{rig.Rotary: "turn", rig.Linear: "steps"}[a.Kind])
			case k.moves && w.Port == nil && what != "":
				return nil, exit.Misused("%s is found by moving: give --port, or --virtual", k.name)
			case k.driven && byHand && what != "":
				return nil, exit.Misused("the rig is set and started by hand: it has no %s to find here; its ramp may be read off a take, as \"seamrail help bring-up\" tells", k.name)
			case k.ofCamera && (w.Camera == "" && what == "" || slices.ContainsFunc(out, func(p planned) bool { return p.way.ofCamera })):
			case k.suits(a) && !(k.moves && w.Port == nil) && !(k.driven && byHand):
				out = append(out, planned{a, k})
			}
		}
	}
	return out, nil
}

// load reads the rig file, as it is now.
func (w *Walk) load() (err error) {
	if w.data, err = textfile.Read(w.File); err != nil {
		return err
	}
	w.rig, _, err = rig.Decode(w.File, w.data)
	return textfile.Rather(err, w.File, w.data, filekind.Rig)
}

// one runs a measurement, shows what it came to and writes that where it may.
func (w *Walk) one(p planned, offered bool) (*Found, error) {
	w.axis, _ = w.rig.Axis(p.axis.Name)
	if offered {
		yes, err := w.Ask.yes(question{key: "measure-" + p.axis.Name + "-" + p.way.name, usual: "n",
			words: fmt.Sprintf("\nMeasure %s: %s?", p.axis.Name, p.way.words)})
		if err != nil || !yes {
			return nil, err
		}
	}
	w.Ask.say("\n%s: %s.", strings.ToUpper(p.axis.Name), p.way.words)
	if w.hand != nil {
		if w.hand.axis.Name != p.axis.Name {
			w.hand.opened = false
		}
		w.hand.axis = w.axis
	}
	f, err := p.way.run(w)
	if f == nil || err != nil {
		return f, err
	}
	f.Axis, f.What = p.axis.Name, p.way.name
	w.show(f)
	if len(f.Lines) == 0 {
		return f, nil
	}
	return f, w.write(f, p.way)
}

// show tells what a measurement came to.
func (w *Walk) show(f *Found) {
	var r report.Report
	r.Named("found", "")
	for _, t := range f.Told {
		r.Add(report.Field{Label: t.Label, Text: t.Text})
	}
	for _, d := range f.Doubts {
		r.Bullets(report.Poor, "!", d)
	}
	_ = report.TextWithin(w.Ask.out, r, false, w.Ask.width()) // a screen that is gone must not end a walk
}

// write shows the lines of the file as they were and would be, asks, and writes them.
func (w *Walk) write(f *Found, of way) error {
	file, data := w.File, w.data
	sound := func(data []byte) error { _, _, err := rig.Decode(file, data); return err }
	if of.ofCamera {
		file = w.Camera
		var err error
		if data, err = w.cameraData(); err != nil {
			return err
		}
		sound = camera(file)
	}
	shown, out, err := changed(file, data, f.Lines)
	if err != nil {
		return err
	}
	if err := sound(out); err != nil {
		return fmt.Errorf("the lines would not do in %s, and nothing was written: %w", file, err)
	}
	w.Ask.say("\n%s:\n%s", file, shown)
	yes := w.Write
	if !yes {
		if yes, err = w.Ask.yes(question{key: "write", words: "Write this?"}); err != nil {
			return err
		}
	}
	if !yes {
		w.Ask.say("Nothing was written.")
		return nil
	}
	var values []textfile.Value
	for _, l := range f.Lines {
		values = append(values, textfile.Value{Path: l.Path, Text: l.New, How: asMeasured})
	}
	if err := textfile.Rewrite(file, "not written: ", sound, values...); err != nil {
		return err
	}
	f.Written = true
	w.Ask.say("Written.")
	if of.rescales && w.axis.Settings.StepsName != "" {
		f.tell("now the board", "set the board to the same (it prints it as %s), else it is refused; then go on measuring", w.axis.Settings.StepsName)
		w.Ask.fold("Set the board to the same: it prints its steps as " + w.axis.Settings.StepsName + ". Until then it moves as before and is refused. Measure the rest after that.")
	}
	return w.load()
}

// quantityOf prints a value of the axis.
func (w *Walk) quantityOf(v float64) string { return unit.Format(v, w.dim()) }

// dim is what places of the axis are measured in.
func (w *Walk) dim() unit.Dimension {
	if w.axis.Kind == rig.Rotary {
		return unit.Angle
	}
	return unit.Length
}

// Facts is the measurement for programs.
func (f *Found) Facts() measurereport.Found {
	out := measurereport.Found{Axis: f.Axis, What: f.What, Unit: f.Unit, Sigma: f.Value.Sigma, Bound: f.Value.Bound(), Doubts: f.Doubts, Written: f.Written}
	if len(f.Doubts) == 0 {
		out.Value = &f.Value.Value
	}
	for _, t := range f.Told {
		out.Told = append(out.Told, measurereport.Fact(t))
	}
	for _, l := range f.Lines {
		out.Lines = append(out.Lines, measurereport.Line(l))
	}
	return out
}

func (w *Walk) cameraData() ([]byte, error) { return textfile.Read(w.Camera) }
