package judge

import (
	"fmt"
	"math"
	"strconv"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/camera/picture"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

const strobingOf = "strobing of "

// The edges of strobing, in faces that a product turns from one picture to the
// next. At half a face nobody can say which way it turns, and beyond it turns
// backwards: sampling. From a quarter on the eye has to choose: motion seen in
// steps is surest at a quarter of its pattern and below (common practice).
const (
	sureFaces = 0.25
	lostFaces = 0.5
)

// fewestMarks is how many alike faces or marks a product may have that nobody has
// counted: beyond so many, they are a texture and the eye makes one of them.
const fewestMarks = 60

// strobe is a product that turns, as the pictures show it.
type strobe struct {
	name  string
	turns float64 // a picture, at its fastest
	doubt float64 // share of that by which it may be more
	alike int64   // faces in a turn; 0 where nobody has said
	even  bool    // it turns at one speed
}

// strobes judges everything that turns the product.
func (c Case) strobes() []picture.Verdict {
	var out []picture.Verdict
	for i := range c.Plan.Axes {
		if s, ok := c.turning(&c.Plan.Axes[i]); ok {
			v := s.verdict()
			if v.Level > picture.Good {
				v.Cures = c.slowerTurns(&c.Plan.Axes[i])
			}
			out = append(out, v)
		}
	}
	for _, s := range c.Plan.Stands {
		x := c.standing(s)
		v := x.verdict()
		if v.Level > picture.Good {
			v.Cures = c.moreOften(s)
		}
		out = append(out, v)
	}
	return out
}

// maxFrames is how many frames of a loop are looked at, evenly.
const maxFrames = 5000

// turning is how a table turns, and false for an axis that turns no product.
func (c Case) turning(a *plan.Axis) (strobe, bool) {
	scene := c.Shot.Scene
	table := scene != nil && scene.Stand.TableAxis == a.Rig.Name
	turner, turns := a.Move.Does.(move.Turner)
	if !turns && !table || a.Extremes.Speed.Value == 0 {
		return strobe{}, false
	}
	k := c.Plan.Loop.Clock
	s := strobe{name: a.Rig.Name}
	if turns {
		s.alike, s.even = turner.Faces(), turner.Steady()
	}
	if s.alike == 0 && table {
		s.alike = int64(scene.Product.Symmetry())
	}
	most := 0.0
	n := min(c.Plan.Loop.Captured, maxFrames)
	for i := range n {
		t := (float64(i) + 0.5) / float64(n) * c.Plan.Loop.Real().Float()
		most = math.Max(most, math.Abs(a.Track.At(t).Vel))
	}
	s.turns = most / 360 / k.Pictures().Float()
	return s, true
}

// standing is how a display stand turns, with all that may be off its speed.
func (c Case) standing(s plan.Stand) strobe {
	turn := spin.StrobeOf(s.Speed.Period, c.Plan.Loop.Clock.Pictures(), s.Spin.Symmetry).True
	doubt := s.Speed.Sigma.Mul(exact.Int(spin.Coverage)).Quo(s.Speed.Period).Add(s.Rig.Regulation)
	return strobe{name: s.Rig.Name, turns: turn.Float(), doubt: doubt.Float(), alike: s.Spin.Symmetry, even: true}
}

// edge is the share of half a face within which no eye tells it from half a face.
const edge = 1e-3

func (s strobe) verdict() picture.Verdict {
	v := picture.Verdict{Check: strobingOf + s.name, Level: picture.Good}
	v.Figures = []picture.Figure{{Name: "turns", Value: s.turns * 360, Unit: "deg a picture"}}
	how := " turns"
	if !s.even {
		how = " turns, at its fastest,"
	}
	angle := short(s.turns*360) + " deg from one picture to the next"
	if s.alike == 0 {
		marks := int64(math.Ceil(lostFaces / s.turns))
		v.Text = fmt.Sprintf("%s%s %s: a product of %d alike faces or marks would strobe", s.name, how, angle, marks)
		if marks < fewestMarks {
			v.Level, v.Missing = picture.Unknown, []string{"symmetry of the product"}
		}
		return v
	}
	faces := s.turns * float64(s.alike)
	most := faces * (1 + s.doubt) * (1 + edge)
	v.Figures = append(v.Figures, picture.Figure{Name: "of a face", Value: faces})
	v.Text = fmt.Sprintf("%s%s %s, %s of the way to its next face", s.name, how, angle, short(faces))
	switch {
	case most < sureFaces:
		v.Text += ": seen as it turns"
	case most < lostFaces:
		v.Level = picture.Fair
		v.Text += ": the way it turns is still seen, but in steps"
	default:
		v.Level = picture.Poor
		v.Text += s.lost(faces)
	}
	return v
}

// lost says how it looks where the way that it turns is lost.
func (s strobe) lost(faces float64) string {
	nearest := math.Round(faces)
	off := faces - nearest
	switch {
	case !s.even:
		return ": at its fastest it seems to stand, or to turn backwards"
	case faces < lostFaces*(1-edge):
		return ": as its speed may be off, nobody can say which way it turns"
	case math.Abs(math.Abs(off)-lostFaces) < lostFaces*edge:
		return ": nobody can say which way it turns"
	case math.Abs(off) < lostFaces*edge:
		return ": it seems to stand still"
	case off < 0:
		return ": it seems to turn backwards"
	}
	return ": it seems to turn more slowly than it does"
}

// slowerTurns are a longer loop, and fewer turns in this one, with which a table
// does not strobe.
func (c Case) slowerTurns(a *plan.Axis) fault.Cures {
	s, _ := c.turning(a)
	if s.alike == 0 {
		return nil
	}
	times := s.turns * float64(s.alike) / sureFaces
	var out fault.Cures
	add := func(one fault.Cure) {
		if x, ok := c.after(one); ok && x.calm(a.Rig.Name) {
			out = append(out, one)
		}
	}
	// A loop longer by a hundredth than the edge is past it for sure.
	if n := c.wholeLoop(times * 1.01); n > 0 {
		add(aLoop(n, ""))
	}
	if m, ok := a.Move.Does.(move.Turner); ok {
		whole := math.Floor(m.Turned().Abs().Float() * float64(s.alike) / (times * 1.01))
		if whole >= 1 {
			turns := exact.New(int64(whole)*int64(m.Turned().Sign()), s.alike)
			add(cure(source.Join("axis", a.Rig.Name)+".turns", turns.String(), "turns = %q", turns))
		}
	}
	return out
}

// longest is how many timeline frames a loop is offered with: some minutes.
const longest = 10_000

// wholeLoop is the shortest loop of whole captured frames that is so many times
// as long, in timeline frames; 0 where that is longer than anyone films.
func (c Case) wholeLoop(times float64) int64 {
	n := int64(math.Ceil(float64(c.Plan.Loop.Screen) * times))
	for ; n <= longest; n++ {
		if _, err := c.Plan.Loop.Clock.LoopFrames(n); err == nil {
			return n
		}
	}
	return 0
}

// calm tells whether what is called name does not strobe.
func (c Case) calm(name string) bool {
	for i := range c.Plan.Axes {
		if a := &c.Plan.Axes[i]; a.Rig.Name == name {
			s, ok := c.turning(a)
			return !ok || s.verdict().Level == picture.Good
		}
	}
	for _, s := range c.Plan.Stands {
		if s.Rig.Name == name {
			return c.standing(s).verdict().Level == picture.Good
		}
	}
	return false
}

// moreOften are the slowest usual capture rate and the other speeds of a stand
// with which it does not strobe.
func (c Case) moreOften(s plan.Stand) fault.Cures {
	var out fault.Cures
	for _, rate := range spin.UsualRates() {
		if !c.Plan.Loop.Clock.Capture.Less(rate) {
			continue
		}
		one := cure("clock.capture", rate.String(), "captured at %s frames/s, if the camera has it: ", rate.Decimal(3))
		if x, ok := c.after(one); ok && x.calm(s.Rig.Name) {
			one.Words += pace(x.Plan.Loop.Clock.Retime)
			out = append(out, one)
			break
		}
	}
	for _, v := range s.Rig.Speeds {
		if v.Name == s.Speed.Name {
			continue
		}
		one := cure(source.Join("spin", s.Rig.Name)+".speed", v.Name, "its speed %s", v.Name)
		if x, ok := c.after(one); ok && x.calm(s.Rig.Name) {
			out = append(out, one)
		}
	}
	return out
}

// short prints a number to two digits, or three from 100 on.
func short(v float64) string {
	digits := 2
	if math.Abs(v) >= 100 {
		digits = 3
	}
	f, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	return strconv.FormatFloat(f, 'f', -1, 64)
}
