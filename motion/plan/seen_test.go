package plan_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/plan"
	"seamrail/motion/track"
)

// seen are the extremes of a stretch of an axis, looked at instant by instant.
type seen struct{ lo, hi, speed, acc, jerk float64 }

func look(from, to float64, breaks []float64, at func(sec float64) track.State) seen {
	s := seen{lo: math.Inf(1), hi: math.Inf(-1)}
	const looks = 4000
	times := slices.Clone(breaks)
	for k := range looks + 1 {
		times = append(times, from+(to-from)*float64(k)/looks)
	}
	for _, b := range breaks { // a derivative is greatest just beside a break
		times = append(times, b-1e-9, b+1e-9)
	}
	for _, sec := range times {
		x := at(min(max(sec, from), to))
		s.lo, s.hi = min(s.lo, x.Pos), max(s.hi, x.Pos)
		s.speed, s.acc, s.jerk = max(s.speed, math.Abs(x.Vel)), max(s.acc, math.Abs(x.Acc)), max(s.jerk, math.Abs(x.Jerk))
	}
	return s
}

// surely is by how much, as a share, what was seen must be beyond a limit to be surely
// beyond it, or within it to be surely within: a peak between two looks is missed by less.
const surely = 1e-4

// breaks holds what was seen of a phase against the limits of the rig, and says of each
// quantity whether it surely breaks one (1), surely breaks none (-1), or may (0).
func (s seen) breaks(a plan.Axis, rate float64) map[string]int {
	side := func(value, bound float64) int {
		switch {
		case bound == 0 || value < bound*(1-surely):
			return -1
		case value > bound*(1+surely):
			return 1
		}
		return 0
	}
	out := map[string]int{
		plan.Speed: side(s.speed, a.Rig.MaxSpeed), plan.Acceleration: side(s.acc, a.Rig.MaxAcc), plan.Jerk: side(s.jerk, a.Rig.MaxJerk),
		plan.StepRate: side(s.speed*a.Rig.StepsPerUnit.Float(), rate), plan.Position: -1,
	}
	if !a.Rig.Endless {
		slack := 1e-4 * (a.Rig.Max - a.Rig.Min)
		beyond := max(a.Rig.Min-s.lo, s.hi-a.Rig.Max)
		switch {
		case beyond > slack:
			out[plan.Position] = 1
		case beyond > -slack:
			out[plan.Position] = 0
		}
	}
	return out
}

// TestBreachesAreWhatIsSeen: whatever a take does, looked at instant by instant over all
// of its rounds, its way back and both of its ramps, is broken where Breaches says, and
// nowhere else. Where the loop asks too much at the seam itself its ramps have no fault
// of their own; that is left out.
func TestBreachesAreWhatIsSeen(t *testing.T) {
	said := map[string]int{}
	rapid.Check(t, func(rt *rapid.T) {
		text := drawn(rt)
		p, err := build(t, text)
		if err != nil {
			rt.Skip(err.Error())
		}
		for _, a := range p.Axes {
			for phase, s := range phases(p, a) {
				for quantity, side := range s.breaks(a, p.Rig.Controller.StepRate) {
					told := slices.ContainsFunc(p.Breaches(), func(b plan.Breach) bool {
						in := b.Phase == phase || phase == "loop" && b.Phase == "return"
						return b.Axis == a.Rig.Name && in && b.Quantity == quantity
					})
					if told {
						said[phase+" "+quantity]++
					}
					require.False(rt, side > 0 && !told, "%s in the %s of %s is not told: %+v\n%s", quantity, phase, a.Rig.Name, s, text)
					require.False(rt, side < 0 && told, "%s in the %s of %s is told: %+v\n%s", quantity, phase, a.Rig.Name, s, text)
				}
			}
		}
	})
	t.Log(said)
}

// phases are what is seen of an axis: all rounds together, and each ramp where it is the
// ramp that is to be judged.
func phases(p *plan.Plan, a plan.Axis) map[string]seen {
	out := map[string]seen{}
	loop := look(0, p.Period(), a.Track.Breaks(), a.Track.At)
	gained := a.Track.Advance().Float() * float64(p.Rounds-1)
	loop.lo, loop.hi = loop.lo+min(gained, 0), loop.hi+max(gained, 0)
	if a.Track.Settled(math.MaxFloat64) { // no derivative jumps but, at the most, the jerk
		out["loop"] = loop
	}
	for phase, r := range map[string]*plan.Ramp{"run-up": a.RunUp, "run-out": a.RunOut} {
		if r == nil {
			continue
		}
		seam := r.At(r.Length())
		carried := 0.0
		if phase == "run-out" {
			seam, carried = r.At(0), gained
		}
		if math.Abs(seam.Vel) > a.Rig.SpeedCap(p.Rig.Controller.StepRate)*(1-surely) || math.Abs(seam.Acc) > a.Rig.MaxAcc*(1-surely) {
			continue
		}
		s := look(0, r.Length(), r.Breaks(), r.At)
		s.lo, s.hi = s.lo+carried, s.hi+carried
		out[phase] = s
	}
	return out
}

// drawn is a shot of a rail and a table whose numbers are such that each limit is as
// likely kept as broken.
func drawn(rt *rapid.T) string {
	number := func(name string, lo, hi float64) string {
		return fmt.Sprintf("%.4f", rapid.Float64Range(lo, hi).Draw(rt, name))
	}
	from := rapid.Float64Range(0, 60).Draw(rt, "from")
	rail := fmt.Sprintf("[axis.rail]\nmove = \"there-and-back\"\nfrom = \"%.4f mm\"\nto = \"%.4f mm\"\nlaw = %q\nphase = \"%d/64\"\n",
		from, from+rapid.Float64Range(10, 80).Draw(rt, "span"), rapid.SampledFrom([]string{"3-4-5", "harmonic", "cycloidal", "4-5-6-7"}).Draw(rt, "law"), rapid.IntRange(0, 63).Draw(rt, "phase"))
	if rapid.IntRange(0, 3).Draw(rt, "keyed") == 0 {
		rail = fmt.Sprintf("[axis.rail]\nmove = \"keys\"\nkeys = [{ at = \"0 s\", pos = \"%.4f mm\", speed = \"%.4f mm/s\" }, { at = \"2 s\", pos = \"%s mm\" }, { at = \"4 s\", pos = \"%s mm\" }]\n",
			from, rapid.Float64Range(-20, 20).Draw(rt, "through"), number("second", 0, 100), number("third", 0, 100))
	}
	table := fmt.Sprintf("[axis.table]\nmove = \"turn\"\nturns = \"%d/12\"\nstart = \"%s deg\"\nlaw = \"uniform\"\n",
		rapid.SampledFrom([]int{-3, -2, -1, 1, 2, 3}).Draw(rt, "twelfths"), number("start", -40, 40))
	return strings.NewReplacer(
		`travel = ["0 mm", "400 mm"]`, `travel = ["0 mm", "`+number("far", 60, 140)+` mm"]`,
		`speed = "400 mm/s"`, `speed = "`+number("speed", 80, 500)+` mm/s"`,
		`acceleration = "3000 mm/s2"`, `acceleration = "`+number("acceleration", 800, 5000)+` mm/s2"`,
		`jerk = "100000 mm/s3"`, `jerk = "`+number("jerk", 10_000, 200_000)+` mm/s3"`,
		`travel = "endless"`, rapid.SampledFrom([]string{`travel = "endless"`, `travel = ["-100 deg", "100 deg"]`}).Draw(rt, "table"),
		`speed = "180 deg/s"`, `speed = "`+number("turning", 20, 120)+` deg/s"`,
		`acceleration = "720 deg/s2"`, `acceleration = "`+number("pushing", 100, 1000)+` deg/s2"`,
		`step-rate = "40000 steps/s"`, `step-rate = "`+number("steps", 8000, 40_000)+` steps/s"`,
	).Replace(bench) + rail + table + fmt.Sprintf("[take]\nrounds = %d\n", rapid.IntRange(1, 4).Draw(rt, "rounds"))
}

var _ = assert.True
