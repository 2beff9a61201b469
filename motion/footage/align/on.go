package align

import (
	"math"
	"sync"

	"seamrail/motion/footage"
)

const (
	// guesses are how many peaks of a correlation are looked at: the motion, and what a hand or a
	// pattern that repeats may have above it.
	guesses = 3
	// enough is the share of the blocks that must agree before turn and scale are not looked for
	// anew, and least what must agree at all. By chance five blocks of forty lie within together
	// of a pixel of one motion, of the 16 pixels that each may go, once in some thousand pictures.
	enough, least = 0.4, 0.15
	// plenty is the share that must agree on what was expected for nothing else to be looked at at
	// once. Where it was looked for as widely as anything else, whatever agrees on it at all is
	// kept: a pattern that repeats may have far more agree on another place, and a take goes on from
	// where it was. better is by how much more must agree on what was not expected, of two that were
	// not.
	plenty, better = 0.6, 0.1
)

// On finds how a frame lies on a reference of the same size. What is expected may be told: it is
// looked at first, and taken where others are no better; nil asks for all that may be. A Pose
// that is not Known says that the two have nothing in common, or nothing to hold on to.
func On(reference, frame *Picture, expected *footage.Pose) footage.Pose {
	return on(reference, frame, expected, true).pose
}

// sight is how a frame lies on a reference, and where its blocks were found beside that pose.
type sight struct {
	pose   footage.Pose
	base   footage.Pose // from which the blocks were looked for
	blocks []moved
}

// on is On with what it saw, which looks for turns and scales that nobody expects only where that
// is asked for.
func on(reference, frame *Picture, expected *footage.Pose, turns bool) sight {
	best := sight{pose: footage.Pose{Scale: 1}}
	if expected != nil && expected.Known {
		if best = refined(reference, frame, *expected, 1); best.pose.Known && best.pose.Shared >= plenty {
			return best
		}
	}
	take := func(list []footage.Pose) {
		other := refined(reference, frame, likeliest(reference, frame, list), levels)
		if other.pose.Known && (!best.pose.Known || other.pose.Shared > best.pose.Shared+better) {
			best = other
		}
	}
	if expected != nil && expected.Known {
		take([]footage.Pose{*expected})
		if best.pose.Known {
			return best
		}
	}
	take(shifted(reference, frame, footage.Same()))
	if !turns || best.pose.Known && best.pose.Shared >= enough {
		return best
	}
	var list []footage.Pose
	for _, p := range turned(reference.phase, frame.phase, guesses) {
		list = append(list, shifted(reference, frame, p)...)
	}
	take(list)
	return best
}

// coarse is how many pixels of the frame one of the last level has.
const coarse = 1 << (levels - 1)

// shifted are the poses that have a turn and a scale, and the shifts that phases give with them.
func shifted(reference, frame *Picture, p footage.Pose) []footage.Pose {
	to := frame.phase
	if p.Turn != 0 || p.Scale != 1 {
		to = ofPicture(&frame.levels[levels-1], p)
	}
	var out []footage.Pose
	for _, s := range shifts(reference.phase, to, guesses) {
		laid := footage.Same()
		laid.X, laid.Y = s.x*coarse, s.y*coarse
		out = append(out, p.After(laid))
	}
	return out
}

// likeliest is the pose under which two pictures are most alike where they share; the first of
// those that are about as much so.
func likeliest(reference, frame *Picture, list []footage.Pose) footage.Pose {
	const aboutAsMuch = 0.02
	best, most := footage.Pose{}, math.Inf(-1)
	for _, p := range list {
		if c := correlation(&reference.levels[levels-1], &frame.levels[levels-1], p.Magnified(1.0/coarse)); c > most+aboutAsMuch {
			best, most = p, c
		}
	}
	return best
}

// overlap is the least share of a picture that must be in another to be compared with it.
const overlap = 0.15

// correlation is how alike two pictures are under a pose, -1 to 1, by every second pixel that
// both have; -1 where they share too little.
func correlation(reference, frame *footage.Gray, p footage.Pose) float64 {
	mx, my := middle(*reference)
	var n, a, b, aa, ab, bb float64
	all := 0
	for y := 0; y < reference.Height; y += 2 {
		row := reference.Row(y)
		for x := 0; x < reference.Width; x += 2 {
			all++
			u, v := p.At(float64(x)-mx, float64(y)-my)
			if u, v = u+mx, v+my; !inside(frame, u, v) {
				continue
			}
			r, f := float64(row[x]), float64(at(frame, u, v))
			n, a, b, aa, ab, bb = n+1, a+r, b+f, aa+r*r, ab+r*f, bb+f*f
		}
	}
	d := (aa - a*a/n) * (bb - b*b/n)
	if n < overlap*float64(all) || d <= 0 {
		return -1
	}
	return (ab - a*b/n) / math.Sqrt(d)
}

var blocks = sync.Pool{New: func() any { return new([block * block]float32) }}

// refined lays a frame on a reference by its blocks, at so many of its levels, the finest last.
func refined(reference, frame *Picture, p footage.Pose, of int) sight {
	if !p.Known {
		return sight{pose: footage.Pose{Scale: 1}}
	}
	var seen sight
	room := blocks.Get().(*[block * block]float32)
	defer blocks.Put(room)
	for n := of - 1; n >= 0; n-- {
		size := float64(int(1) << n)
		anchors := reference.anchors[n]
		next := p.Magnified(1 / size)
		agree := 0
		for range 2 { // where blocks were looked for far off, their form was not that of the frame
			seen = sight{base: next, blocks: followed(anchors, &frame.levels[n], next, room[:])}
			further, count := fitted(seen.blocks)
			if agree = count; count < fewest {
				break
			}
			next = furthered(next, further)
			if math.Hypot(further.X, further.Y) < block/8 && math.Abs(further.Turn) < 2 && math.Abs(further.Scale-1) < 0.03 {
				break
			}
		}
		next.Shared = float64(agree) / float64(max(len(anchors), 1))
		if next.Known = agree >= fewest && next.Shared >= least; !next.Known {
			if n > 0 && len(anchors) < 2*fewest {
				continue // what is small has few blocks; a finer level has more
			}
			return sight{pose: footage.Pose{Scale: 1, Shared: next.Shared}}
		}
		p = next.Magnified(size)
	}
	seen.pose = p
	return seen
}

// furthered is a pose by how much further blocks were found; what is in doubt is of these alone.
func furthered(p, further footage.Pose) footage.Pose {
	d := further.Doubt
	next := p.After(further)
	next.Doubt = footage.Doubt{X: next.Scale * d.X, Y: next.Scale * d.Y, Turn: d.Turn, Scale: next.Scale * d.Scale}
	return next
}

// followed are the blocks of a reference that were found in a picture.
func followed(anchors []anchor, g *footage.Gray, p footage.Pose, room []float32) (out []moved) {
	for i := range anchors {
		if m, ok := anchors[i].follow(g, p, room); ok {
			m.n = i
			out = append(out, m)
		}
	}
	return out
}
