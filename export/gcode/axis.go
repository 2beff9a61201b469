package gcode

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/motion/exact"
	"seamrail/motion/trajectory"
)

// letters are the axis words of NISTIR 6556, and U V W, which several readers
// add.
const letters = "XYZABCUVW"

// Bounds of what the rig may say of its controller. A shorter line holds no
// comment worth reading; more decimals overflow the counts of a long turn.
const (
	shortestLine = 12
	mostDecimals = 9
)

func check(t *trajectory.Trajectory) error {
	c := t.Rig().Controller
	if c.LineLength > 0 && c.LineLength < shortestLine {
		return fmt.Errorf("line length %d must be at least %d; 80 would do", c.LineLength, shortestLine)
	}
	if c.Decimals < 0 || c.Decimals > mostDecimals {
		return fmt.Errorf("decimals %d must be within 0 and %d; 3 would do", c.Decimals, mostDecimals)
	}
	return checkLetters(t)
}

func checkLetters(t *trajectory.Trajectory) error {
	used := map[string]string{}
	for i := range t.AxisCount() {
		a := t.Axis(i)
		if len(a.Letter) != 1 || !strings.Contains(letters, a.Letter) {
			return fmt.Errorf("axis %s: letter %q must be one of %s; such as letter = %q",
				a.Name, a.Letter, strings.Join(strings.Split(letters, ""), " "), "X")
		}
		if other, ok := used[a.Letter]; ok {
			return fmt.Errorf("axis %s: letter %q must not be that of axis %s too", a.Name, a.Letter, other)
		}
		used[a.Letter] = a.Name
	}
	return nil
}

// axis keeps positions as whole counts of the last decimal that is written, so
// that what has been told can be compared and the advance added exactly.
type axis struct {
	letter    byte
	maxSpeed  float64 // units/s
	perUnit   float64 // steps a unit
	grain     float64 // counts a unit: 10^decimals
	advance   exact.Rat
	whole     int64   // counts of the shift, whole
	rest      float64 // units of the shift below a count
	told      int64   // counts, where the controller has been told to be
	target    int64   // counts, where it is to be
	toldSteps float64
	// targetSteps is the step nearest to target, as a whole number.
	targetSteps float64
}

func newAxis(t *trajectory.Trajectory, i, decimals int) axis {
	a := t.Axis(i)
	return axis{
		letter: a.Letter[0], maxSpeed: a.MaxSpeed, perUnit: a.StepsPerUnit.Float(),
		grain: math.Pow10(decimals), advance: t.Advance(i),
	}
}

// shift adds the advance of so many rounds to the positions that follow.
func (a *axis) shift(rounds int64) {
	counts := a.advance.Mul(exact.Int(rounds)).Mul(exact.Int(int64(a.grain)))
	a.whole = counts.Floor().Whole()
	a.rest = counts.Frac().Float() / a.grain
}

func (a *axis) aim(pos float64) {
	a.target = int64(math.Round((pos+a.rest)*a.grain)) + a.whole
	a.targetSteps = math.Round(float64(a.target) / a.grain * a.perUnit)
}

// word appends the axis word of the target: "X40.000", never "-0".
func (a *axis) word(buf []byte, decimals int) []byte {
	buf = append(buf, a.letter)
	n := a.target
	if n < 0 {
		buf = append(buf, '-')
		n = -n
	}
	start := len(buf)
	buf = strconv.AppendInt(buf, n, 10)
	for len(buf)-start <= decimals {
		buf = append(buf, 0)
		copy(buf[start+1:], buf[start:])
		buf[start] = '0'
	}
	if decimals == 0 {
		return buf
	}
	point := len(buf) - decimals
	buf = append(buf, 0)
	copy(buf[point+1:], buf[point:])
	buf[point] = '.'
	return buf
}
