package drive

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/rig"
)

// judgeSoftLimits refuses a take for which the controller has no room, wherever
// it counts from. Whether the room lies where the take is can be told when it is
// known where the rig stands.
func (t *talker) judgeSoftLimits(name string, got float64) finding {
	if got == 0 {
		return finding{}
	}
	t.travels = make([]float64, len(t.axes))
	var refuse, tell []string
	for i, a := range t.axes {
		if a.Endless {
			refuse = append(refuse, fmt.Sprintf("axis %s: soft limits are on (%s=%g) and it is endless: the controller stops it with an alarm as soon as it has turned its travel. "+
				"Set %s=0; what keeps the other axes from their ends is then the rig file alone", a.Name, name, got, name))
			continue
		}
		travel, told := t.read[a.Settings.TravelName]
		if !told || a.Settings.TravelName == "" {
			tell = append(tell, fmt.Sprintf("soft limits are on (%s=%g) and it does not print the travel of axis %s: whether the take is within it is not known", name, got, a.Name))
			continue
		}
		travel = math.Abs(travel)
		t.travels[i] = travel
		low, high := t.reach(i)
		if step := 1 / a.StepsPerUnit.Float(); high-low > travel+step {
			refuse = append(refuse, fmt.Sprintf("axis %s: soft limits are on (%s=%g) and let it go %g %s (%s), and the take goes from %.3f to %.3f %s, %.3f: it would stop with an alarm in the middle of it. "+
				"Make the move shorter, or set %s to the travel the axis has, %g %s by the rig file", a.Name, name, got, travel, a.Unit(), a.Settings.TravelName,
				low, high, a.Unit(), high-low, a.Settings.TravelName, a.Travel(), a.Unit()))
		}
	}
	return finding{strings.Join(refuse, "\n"), strings.Join(tell, "\n")}
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
	machine, told := t.onMachine()
	if t.travels == nil || !told {
		return nil
	}
	for i, a := range t.axes {
		room, step := t.travels[i], 1/a.StepsPerUnit.Float()
		if room == 0 {
			continue
		}
		low, high := t.reach(i)
		shift := machine[i] - at[i]
		low, high = min(low+shift, machine[i]), max(high+shift, machine[i])
		rooms := [][2]float64{{-room, 0}, {0, room}}
		if math.Abs(shift) <= step {
			rooms = append(rooms, [2]float64{a.Min, a.Max})
		}
		might, fits := 0, 0
		for _, r := range rooms {
			holds := func(low, high float64) bool { return low >= r[0]-step && high <= r[1]+step }
			might += count(holds(machine[i], machine[i]))
			fits += count(holds(low, high))
		}
		if fits > 0 {
			t.doubtRoom(a, machine[i], fits < might)
			continue
		}
		return failed(Mismatched, "axis %s: soft limits are on and let it go %g %s from where the controller's count ends; it stands at %.3f of that count, and the take goes from %.3f to %.3f of it: "+
			"it would stop with an alarm on the way. Home it at the other end, move the take, or set %s=0", a.Name, room, a.Unit(), machine[i], low, high, t.controller.Reports[rig.SoftLimits])
	}
	return nil
}

func count(is bool) int {
	if is {
		return 1
	}
	return 0
}

// doubtRoom says, once an axis, that its room may lie on the other side.
func (t *talker) doubtRoom(a rig.Axis, counts float64, doubtful bool) {
	if !doubtful || slices.Contains(t.doubted, a.Name) {
		return
	}
	t.doubted = append(t.doubted, a.Name)
	t.Observer.Say(fmt.Sprintf("axis %s: soft limits are on, and where the controller counts %.3f they may lie on either side: whether the take is within them cannot be told, and it may stop with an alarm", a.Name, counts))
}
