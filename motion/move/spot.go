package move

import (
	"fmt"
	"math"

	"seamrail/motion/base/unit"
)

// Spot is a place of a move that is found on the rig: an operator brings an axis there,
// and the file comes to say it. Times stay as they are.
type Spot struct {
	Name  string // as it is typed and said: "from", "key 3"
	Key   string // of the table of the axis
	Means string // what is there
	At    unit.Quantity
	// Of is the axis that is brought there, where that is another one: what an axis aims
	// by is a place of its carriage.
	Of string
	// Begins and Ends tell whether the move does so there.
	Begins, Ends bool
	// Reach is where the key counts from, and either way, in mm or degrees; nil where it
	// has the place itself.
	Reach *float64
}

// Says is what the key has to say for the spot to be at a place, in mm or degrees.
func (s Spot) Says(at float64) float64 {
	if s.Reach != nil {
		return math.Abs(at - *s.Reach)
	}
	return at
}

// ends are the spots of a move from one place to another.
func ends(from, to unit.Quantity, first, last string) []Spot {
	return []Spot{
		{Name: "from", Key: "from", Means: first, At: from, Begins: true},
		{Name: "to", Key: "to", Means: last, At: to, Ends: true},
	}
}

// ahead is the spot at which the point is straight ahead of the lens: a place of the
// axis of that name, or of the one that has the move where there is none.
func (p Point) ahead(of string) Spot {
	return Spot{Name: "ahead", Key: "point[1]", Means: "the point is straight ahead", At: p[0], Of: of}
}

// numbered is one of several spots of a kind.
func numbered(kind string, n int, key, means string, at unit.Quantity) Spot {
	return Spot{Name: fmt.Sprintf("%s %d", kind, n), Key: fmt.Sprintf("%ss[%d].%s", kind, n, key), Means: means, At: at}
}
