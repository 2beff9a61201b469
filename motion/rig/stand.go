package rig

import "seamrail/motion/exact"

// Stand is a motorised display stand: it turns by itself, at a speed of its
// own, and takes no orders from the rig.
type Stand struct {
	Name      string
	Clockwise bool         // seen from above; degrees grow counterclockwise
	Phased    bool         // can be started so that a chosen face is in front at frame 0
	Drift     exact.Rat    // share by which its speed wanders, at least 0
	Speeds    []StandSpeed // at least one, in the order of the file
}

// StandSpeed is one of the speeds a stand has, as it was measured.
type StandSpeed struct {
	Name   string
	Period exact.Rat // real s a turn, > 0
	Sigma  exact.Rat // standard uncertainty of Period, s, at least 0
	Basis  string    // where the two come from, in words
}

// Speed returns the speed called name.
func (s Stand) Speed(name string) (StandSpeed, bool) {
	for _, v := range s.Speeds {
		if v.Name == name {
			return v, true
		}
	}
	return StandSpeed{}, false
}

// SpeedNames returns the names of the speeds, in the order of the file.
func (s Stand) SpeedNames() []string {
	names := make([]string, len(s.Speeds))
	for i, v := range s.Speeds {
		names[i] = v.Name
	}
	return names
}

// Rate returns the angle gained a real second at speed v, in degrees, below 0
// where the stand turns clockwise.
func (s Stand) Rate(v StandSpeed) exact.Rat {
	rate := exact.Int(degreesPerTurn).Quo(v.Period)
	if s.Clockwise {
		return rate.Neg()
	}
	return rate
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
