package rig

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// Stand is a motorised display stand: it turns by itself, at a speed of its
// own, and takes no orders from the rig.
type Stand struct {
	spin.Stand
	Phased bool     // can be started so that a chosen face is in front at frame 0
	Bases  []string // where the period of each speed comes from, in words
	Faulty bool     // not understood: some fault says why
}

// Basis returns where the period of the speed called name comes from.
func (s Stand) Basis(name string) string {
	for i, v := range s.Speeds {
		if v.Name == name {
			return s.Bases[i]
		}
	}
	return ""
}

// SpeedNames returns the names of the speeds, in the order of the file.
func (s Stand) SpeedNames() []string {
	names := make([]string, len(s.Speeds))
	for i, v := range s.Speeds {
		names[i] = v.Name
	}
	return names
}

// Rate returns the degrees gained a real second at speed v: above 0
// anticlockwise, seen from above.
func (s Stand) Rate(v spin.Speed) exact.Rat {
	return exact.Int(degreesPerTurn * s.Direction.Sign()).Quo(v.Period)
}

// Stand returns the stand called name.
func (r Rig) Stand(name string) (Stand, bool) {
	for _, s := range r.Stands {
		if s.Name == name {
			return s, true
		}
	}
	return Stand{}, false
}

// StandNames returns the names of the stands, in the order of the file.
func (r Rig) StandNames() []string {
	names := make([]string, len(r.Stands))
	for i, s := range r.Stands {
		names[i] = s.Name
	}
	return names
}
