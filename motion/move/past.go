package move

import (
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// Becomer is a kind that another move of an axis can become.
type Becomer interface {
	Kind
	// Plain says in a few words what it does.
	Plain() string
	// Suited tells whether the axis can have it.
	Suited(p Past) bool
	// Becomes are its keys, filled in from where the axis went so far and when: one way
	// after the other, the nearest to that first.
	Becomes(p Past) []source.Row
	// Apart are keys that mean something else here than under other moves.
	Apart() []string
}

// Sided is a kind of which one key takes others beside it.
type Sided interface {
	// Beside is what has to be there with a value of a key, and what must not be.
	Beside(key, value string, p Past) (row source.Row, gone []string, ok bool)
}

// Named is the kind of a name, false where there is none that a move can become.
func Named(name string) (Becomer, bool) {
	for _, k := range Kinds() {
		if b, ok := k.(Becomer); ok && k.Name() == name {
			return b, true
		}
	}
	return nil, false
}

// Axle is an axis as a move sees it that is about to become another one.
type Axle struct {
	Name     string
	Rotary   bool
	Endless  bool
	Min, Max float64 // travel, mm or degrees; both 0 where it is endless
	Driven   bool    // or else two ends and a time are set
}

// Dim is that of its places.
func (a Axle) Dim() unit.Dimension {
	if a.Rotary {
		return unit.Angle
	}
	return unit.Length
}

// Past is where an axis went so far, and what stands before the lens.
type Past struct {
	Axle
	Loop      clock.Loop
	Does      Move
	Track     *track.Track
	Faces     int64      // of the product that look alike, at least 1
	Away      float64    // mm from the lens to the product
	Focal     float64    // mm, 0 where it is not known
	Carriages []Carriage // that it could follow
	// Stirs tells that another axis moves at the seam, other than evenly: no loop can be cut
	// there.
	Stirs bool

	Start    float64 // in frame 0
	From, To float64 // where it begins, and the farthest from there
	Cycles   int     // times there and back
	Still    bool    // it went nowhere, and To is somewhere near
}

// Carriage is an axis that slides by a move of its own, and where it begins.
type Carriage struct {
	Name  string
	Start float64
}

const (
	// firstWay, mm or degrees, is long enough to be seen, and far from what a rig breaks
	// a limit by in a loop of seconds.
	firstWay = 40.0
	// roomy is how much of a travel it takes at most: the ends are for whoever measured
	// it too long.
	roomy = 0.5
	// looks is how often a track is looked at whose ends nobody knows.
	looks = 96
)

// Went fills in where the axis went.
func (p Past) Went() Past {
	p.Start, p.Cycles = p.Track.At(0).Pos, 1
	switch m := p.Does.(type) {
	case Ended:
		near, far := m.Ends()
		p.From, p.To, p.Cycles = near.Float(), far.Float(), m.Visits()
	case Ranging:
		r := m.Range()
		p.From, p.To = r[0].Pos, r[1].Pos
	default:
		p.From, p.To = p.Start, p.Start
		for i := range looks {
			if at := p.Track.At(p.Track.Seconds() * float64(i) / looks).Pos; math.Abs(at-p.Start) > math.Abs(p.To-p.Start) {
				p.To = at
			}
		}
	}
	if math.Abs(p.To-p.From) < DragGrain {
		p.Still = true
		way := firstWay / 2
		if !p.Endless {
			if way = math.Min(way, (p.Max-p.Min)*roomy/2); p.From+way > p.Max {
				way = -way
			}
		}
		p.To = p.From + way
	}
	return p
}

// place is a place within the travel, as it is written.
func (p Past) place(at float64) string {
	if !p.Endless {
		at = math.Min(math.Max(at, p.Min), p.Max)
	}
	return Place(at, DragGrain, p.Dim())
}

// frame is the timeline frame of a real time.
func (p Past) frame(sec exact.Rat) int64 {
	return sec.Mul(p.Loop.Clock.Playback).Quo(p.Loop.Clock.Retime).Round().Whole()
}

// Rest is where an axis stays, in timeline frames.
type Rest struct{ From, To int64 }

// Rests are where it stays at one of its ends, in order; none where only its track knows.
func (p Past) Rests(near bool) []Rest {
	e, ok := p.Does.(Ended)
	if !ok {
		return nil
	}
	stays, _ := e.Stays(p.Loop.Real(), near)
	return list.Map(stays, func(s Stay) Rest { return Rest{p.frame(s.From), p.frame(s.To)} })
}

func (p Past) ends() source.Row {
	return source.Row{{Key: "from", Value: p.place(p.From)}, {Key: "to", Value: p.place(p.To)}}
}

// Firsts are moves for an axis that has none so far, the best first: round by a face of the
// product, or there and back about the middle of its travel and less and less far, or at
// rest.
func Firsts(a Axle, faces int64) []source.Row {
	rest := source.Row{{Key: moveKey, Value: HoldKeys{}.Name()}, {Key: "at", Value: Place((a.Min+a.Max)/2, DragGrain, a.Dim())}}
	if a.Endless {
		turn := source.Row{{Key: moveKey, Value: TurnKeys{}.Name()}}
		return []source.Row{append(turn, byFace(faces)...), rest}
	}
	var out []source.Row
	for _, share := range []float64{1, 0.5, 0.25, 0.1} {
		way := math.Min(firstWay, (a.Max-a.Min)*roomy) * share
		p := Past{Axle: a, From: (a.Min+a.Max)/2 - way/2, To: (a.Min+a.Max)/2 + way/2}
		out = append(out, append(source.Row{{Key: moveKey, Value: ThereAndBackKeys{}.Name()}}, p.ends()...))
	}
	return append(out, rest)
}
