package program

import (
	"fmt"
	"strings"

	"seamrail/motion/plan/trajectory"
)

// letters are the axis words of NISTIR 6556, and U V W, which several readers
// add.
const letters = "XYZABCUVW"

// Bounds of what the rig may say of its controller. A shorter line holds no
// comment worth reading; more decimals overflow the counts of a long turn.
const (
	shortestLine = 12
	maxDecimals  = 9
)

// Check tells whether the rig has what lines are made of: a letter of its own
// for each axis of the plan, and a line length and decimals within reason.
func Check(t *trajectory.Trajectory) error {
	c := t.Rig().Controller
	if c.LineLength > 0 && c.LineLength < shortestLine {
		return fmt.Errorf("line length %d must be at least %d; 80 would do", c.LineLength, shortestLine)
	}
	if c.Decimals < 0 || c.Decimals > maxDecimals {
		return fmt.Errorf("decimals %d must be within 0 and %d; 3 would do", c.Decimals, maxDecimals)
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
