package picture

import (
	"math"
	"slices"

	"seamrail/motion/scene"
)

// Order is how axes go from one place to another, one after the other.
type Order struct {
	Axes []int // those that move, in their order
	// Room is how far the lens then keeps from all the product turns through and from the
	// edges of holes, in mm, at least; below 0 it strikes. +Inf where it comes near neither.
	Room float64
	// Missing is what would have to be known to tell; the axes then go in the order of
	// the rig.
	Missing []string
}

// mostOrdered is how many axes are put in the order that leaves the most room: a
// tabletop rig has no more, and each doubles the looks.
const mostOrdered = 6

// InOrder finds in which order axes go from one place to another. That of the rig is
// kept where it leaves the room that the bounds want, else the one that leaves the most
// is taken. Places are those of the axes of m, first to last; what turns by itself needs
// none.
func InOrder(m Motion, s scene.Scene, from, to []float64) (Order, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Order{}, err
	}
	w := ways{eye: e, from: slices.Clone(from), to: slices.Clone(to), known: map[[2]int]float64{}}
	for len(w.from) < m.AxisCount() {
		w.from, w.to = append(w.from, 0), append(w.to, 0) // a stand: any of its angles is looked at
	}
	for i := range w.from {
		if w.from[i] != w.to[i] {
			w.moving = append(w.moving, i)
		}
	}
	return w.order(), nil
}

// ways are those of single axes while others have gone before them.
type ways struct {
	*eye
	from, to []float64
	moving   []int
	known    map[[2]int]float64 // by who has gone, as bits of moving, and who goes
}

func (w ways) order() Order {
	natural := Order{Axes: w.moving, Room: math.Inf(1), Missing: w.bodyMissing()}
	if _, ok := w.scene.Product.Outline(); !ok {
		natural.Missing = append(natural.Missing, "shape and size of the product")
	}
	for _, h := range w.scene.Holes {
		if !h.Diameter.Given {
			natural.Missing = append(natural.Missing, "diameter of the "+h.Called())
		}
	}
	if len(natural.Missing) > 0 {
		return natural
	}
	for k := range w.moving {
		natural.Room = math.Min(natural.Room, w.room(1<<k-1, k))
	}
	if natural.Room >= w.bounds.Clearance || len(w.moving) > mostOrdered {
		return natural
	}
	if best := w.best(); best.Room > natural.Room {
		return best
	}
	return natural
}

// best is the order that leaves the most room: for each set of axes that have gone, the
// best of those that may have gone last.
func (w ways) best() Order {
	sets := make([]Order, 1<<len(w.moving))
	sets[0].Room = math.Inf(1)
	for gone := 1; gone < len(sets); gone++ {
		sets[gone].Room = math.Inf(-1)
		for k, axis := range w.moving {
			if gone&(1<<k) == 0 {
				continue
			}
			before := sets[gone&^(1<<k)]
			if room := math.Min(before.Room, w.room(gone&^(1<<k), k)); room > sets[gone].Room {
				sets[gone] = Order{Axes: append(slices.Clone(before.Axes), axis), Room: room}
			}
		}
	}
	return sets[len(sets)-1]
}

// room is what the k-th of the moving axes leaves on its way, others having gone.
func (w ways) room(gone, k int) float64 {
	if least, ok := w.known[[2]int{gone, k}]; ok {
		return least
	}
	at := slices.Clone(w.from)
	for j, axis := range w.moving {
		if gone&(1<<j) != 0 {
			at[axis] = w.to[axis]
		}
	}
	way := w.alone(w.moving[k], at, w.to)
	least, _ := way.least(w.sweptGapAt)
	for _, h := range w.scene.Holes {
		p := passage{margin: math.Inf(1)}
		w.passes(&p, h, grain, []stretch{way}, true)
		least = math.Min(least, p.margin)
	}
	w.known[[2]int{gone, k}] = least
	return least
}
