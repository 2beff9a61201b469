package session

import (
	"fmt"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// markKey returns the key of the shot file that a mark sets, or why there is
// none.
func markKey(m shot.AxisMove, name string) (string, error) {
	key, instead := m.Does.Mark(name != console.Start)
	if key == "" {
		return "", fmt.Errorf("axis %s: a %s has no end to set; change its %s in the shot", m.Name, m.Kind(), instead)
	}
	return key, nil
}

// markGrain is what a mark is rounded to, in mm or degrees: the finest that
// controllers report.
const markGrain = 0.001

// markText is a place as the shot file has it.
func markText(a plan.Axis, at float64) string {
	dim := unit.Length
	if a.Rig.Unit() == "deg" {
		dim = unit.Angle
	}
	return move.Place(at, markGrain, dim)
}

// mark writes where an axis stands into the shot file, and says so. A shot that
// would no longer be one is not written.
func mark(file string, a plan.Axis, name string, at float64) (string, error) {
	key, err := markKey(a.Move, name)
	if err != nil {
		return "", err
	}
	text := markText(a, at)
	if file == "" || file == "-" {
		return "", fmt.Errorf("axis %s stands at %s; there is no shot file to write it to: \"seamrail new\" makes one", a.Rig.Name, text)
	}
	if err := textfile.Rewrite(file, source.Join("axis", a.Rig.Name)+"."+key, text, func(data []byte) error {
		_, err := shot.Decode(file, data, nil)
		return err
	}); err != nil {
		return "", err
	}
	return fmt.Sprintf("axis %s: %s = %q is now in %s", a.Rig.Name, key, text, file), nil
}
