package drive

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/spec/rig"
)

// judgeSoftLimits refuses a take for which the controller has no room, wherever
// it counts from. Whether the room lies where the take is can be told when it is
// known where the rig stands.
func (t *talker) judgeSoftLimits(name string, got float64) finding {
	if got == 0 {
		return finding{}
	}
	t.travels = make([]float64, len(t.axes))
	on := fmt.Sprintf("soft limits are on (%s=%g)", name, got)
	var refuse, tell []string
	for i, a := range t.axes {
		if a.Endless {
			refuse = append(refuse, fmt.Sprintf("axis %s: %s and it is endless: the controller stops it with an alarm as soon as it has turned its travel. "+
				"Set %s=0; what keeps the other axes from their ends is then the rig file alone", a.Name, on, name))
			continue
		}
		f := t.roomOf(i, on)
		refuse, tell = with(refuse, f.refuse), with(tell, f.tell)
	}
	return finding{strings.Join(refuse, "\n"), strings.Join(tell, "\n")}
}

func with(list []string, more string) []string {
	if more == "" {
		return list
	}
	return append(list, more)
}

// roomOf holds the travel of the controller for an axis against the take.
func (t *talker) roomOf(i int, on string) finding {
	a := t.axes[i]
	name, unit := a.Settings.TravelName, a.Unit()
	travel, told := t.read[name]
	if !told || name == "" {
		return finding{tell: fmt.Sprintf("axis %s: %s and its travel is not printed: whether the take is within it is not known", a.Name, on)}
	}
	travel = math.Abs(travel)
	t.travels[i] = travel
	low, high := t.reach(i)
	if step := 1 / a.StepsPerUnit.Float(); high-low > travel+step {
		return finding{refuse: fmt.Sprintf("axis %s: %s and let it go %g %s (%s), and the take goes from %.3f to %.3f %s, %.3f: it would stop with an alarm in the middle of it. "+
			"Make the move shorter, or set %s to the travel the axis has, %g %s by the rig file", a.Name, on, travel, unit, name, low, high, unit, high-low, name, a.Travel(), unit)}
	}
	if travel < a.Travel() {
		return finding{tell: fmt.Sprintf("axis %s: soft limits let it go %g %s (%s=%g) and the rig file %g: a jog beyond them stops with an alarm", a.Name, travel, unit, name, travel, a.Travel())}
	}
	return finding{}
}

// reach returns the ends of what an axis goes through in a take, the way to and
// from frames included, as far as captured frames show them.
func (t *talker) reach(i int) (low, high float64) {
	low, high = t.start[i], t.start[i]
	rounds := max(t.Rounds, 1)
	frame := t.Trajectory.FrameSeconds(1).Float()
	look := func(from, to float64) {
		for sec := from; sec < to+frame; sec += frame {
			x := t.planAt(i, rounds, min(sec, to))
			low, high = min(low, x), max(high, x)
		}
	}
	look(-t.runUp, t.period)
	look(float64(rounds-1)*t.period, float64(rounds)*t.period+t.runOut)
	return low, high
}

// inRoom makes sure, once it is known where the rig stands, that the take is
// within the soft limits. What a controller counts from is one of few things:
// after homing most have their travel below 0, some above it, and some count as
// the rig file does. Only what fits none of them is refused.
func (t *talker) inRoom(at []float64) error {
	if t.travels == nil {
		return nil
	}
	machine, told := t.onMachine()
	if !told {
		t.doubt("soft limits are on, and it does not report places as homing counts them: whether the take is within them cannot be told")
		return nil
	}
	for i, a := range t.axes {
		if t.travels[i] == 0 {
			continue
		}
		low, high := t.reach(i)
		shift := machine[i] - at[i]
		low, high = min(low+shift, machine[i]), max(high+shift, machine[i])
		might, fits := t.sides(i, machine[i], shift, low, high)
		switch {
		case fits == 0:
			return failed(Mismatched, "axis %s: soft limits are on and let it go %g %s from where the controller's count ends; it stands at %.3f of that count, and the take goes from %.3f to %.3f of it: "+
				"it would stop with an alarm on the way. Home it at the other end, move the take, or set %s=0", a.Name, t.travels[i], a.Unit(), machine[i], low, high, t.controller.Reports[rig.SoftLimits])
		case fits < might:
			t.doubt(fmt.Sprintf("axis %s: soft limits are on, and where the controller counts %.3f they may lie on either side: whether the take is within them cannot be told, and it may stop with an alarm", a.Name, machine[i]))
		}
	}
	return nil
}

// sides counts the places where the travel of an axis might lie, by where it
// stands in the controller's count, and those of them that a take fits.
func (t *talker) sides(i int, stands, shift, low, high float64) (might, fits int) {
	a, travel := t.axes[i], t.travels[i]
	step := 1 / a.StepsPerUnit.Float()
	sides := [][2]float64{{-travel, 0}, {0, travel}}
	if math.Abs(shift) <= step {
		sides = append(sides, [2]float64{a.Min, a.Max})
	}
	for _, s := range sides {
		holds := func(low, high float64) bool { return low >= s[0]-step && high <= s[1]+step }
		might += count(holds(stands, stands))
		fits += count(holds(low, high))
	}
	return might, fits
}

func count(is bool) int {
	if is {
		return 1
	}
	return 0
}

// doubt says, once a run, what cannot be told.
func (t *talker) doubt(text string) {
	if !slices.Contains(t.doubts, text) {
		t.doubts = append(t.doubts, text)
		t.Observer.Say(text)
	}
}
