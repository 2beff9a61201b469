package shot

import (
	"fmt"

	"seamrail/motion/exact"
	"seamrail/motion/track"
)

// Track returns how the axis moves over a loop of period real seconds. It
// fails where no track can: dwells as long as the loop, keys beyond its end. An
// aim has none of its own: see Aimed.
func (m AxisMove) Track(period exact.Rat) (*track.Track, error) {
	switch m.Move {
	case ThereAndBack:
		return track.ThereAndBack(period, m.backAndForth())
	case Arc:
		return track.Arc(period, m.Sight(), m.backAndForth())
	case Through:
		return m.pass(period)
	case Turn:
		return track.Turn(period, track.TurnSpec{Start: m.Start.Float(), Turns: m.Turns, Law: m.Law})
	case Hold:
		return track.Hold(period, m.At.Float())
	case Keys:
		return track.Keys(period, m.keysSpec())
	case Aim:
		return nil, fmt.Errorf("axis %s aims, and moves only as what it follows does", m.Name)
	}
	return nil, fmt.Errorf("axis %s has no move", m.Name)
}

func (m AxisMove) backAndForth() track.ThereAndBackSpec {
	return track.ThereAndBackSpec{
		From: m.From.Float(), To: m.To.Float(), Out: m.Law, Back: m.BackLaw,
		Cycles: m.Cycles, OutShare: m.OutShare,
		DwellFar: m.DwellFar, DwellNear: m.DwellNear, Phase: m.Phase,
	}
}

func (m AxisMove) keysSpec() track.KeysSpec {
	spec := track.KeysSpec{Advance: m.Advance, Monotone: m.Monotone}
	for _, k := range m.Keys {
		key := track.Key{Time: k.At, Pos: k.Pos.Float(), Hold: k.Hold}
		if k.Speed != nil {
			v := k.Speed.Float()
			key.Speed = &v
		}
		key.Feel = track.Feel{Tension: k.Tension.Float(), EaseIn: k.EaseIn, EaseOut: k.EaseOut, Within: k.Within.Float()}
		spec.Keys = append(spec.Keys, key)
	}
	return spec
}
