package align

import (
	"math"

	"seamrail/motion/footage"
)

// look is what is kept of a frame that was laid on a landmark; nothing of one that was not. It is
// told in what takes half the room, as a take has many.
type look struct {
	mark   *landmark
	base   footage.Pose
	blocks []spot
}

// spot is a moved as it is kept.
type spot struct {
	n          uint8
	dx, dy     float32
	xx, xy, yy float32
}

func newLook(mark *landmark, s sight) look {
	l := look{mark: mark, base: s.base, blocks: make([]spot, len(s.blocks))}
	for i, m := range s.blocks {
		l.blocks[i] = spot{uint8(m.n), float32(m.dx), float32(m.dy), float32(m.sure.xx), float32(m.sure.xy), float32(m.sure.yy)}
	}
	return l
}

// list are the blocks that were found, as they were.
func (l look) list() []moved {
	out, anchors := make([]moved, len(l.blocks)), l.mark.picture.anchors[0]
	for i, s := range l.blocks {
		a := &anchors[s.n]
		out[i] = moved{int(s.n), a.x, a.y, float64(s.dx), float64(s.dy), a.lever, whiten{float64(s.xx), float64(s.xy), float64(s.yy)}}
	}
	return out
}

// onOneThing is how each frame lies on the first, by the blocks of each landmark that lie on one
// thing all along. By themselves frames may lie on a near thing here and on a far one there, and
// where these have hardly parted on both.
func (t *Tracker) onOneThing() []footage.Pose {
	of := map[*landmark][]int{}
	var order []*landmark // what a landmark was laid on itself is before it
	for n, l := range t.looks {
		if l.mark != nil {
			if of[l.mark] == nil {
				order = append(order, l.mark)
			}
			of[l.mark] = append(of[l.mark], n)
		}
	}
	out := make([]footage.Pose, len(t.frames))
	for _, m := range order {
		t.onTrusted(m, of[m], out)
	}
	for n, l := range t.looks {
		own := t.frames[n].FromFirst
		switch {
		case n == 0 || !own.Known:
			out[n] = own
		case l.mark == nil:
			out[n] = t.frames[n].FromBefore.After(out[n-1])
		default:
			out[n] = out[n].After(out[l.mark.born])
		}
	}
	return out
}

// onTrusted writes how frames lie on the landmark that they were laid on.
func (t *Tracker) onTrusted(mark *landmark, frames []int, out []footage.Pose) {
	looks := make([]look, len(frames))
	for i, n := range frames {
		looks[i] = t.looks[n]
	}
	mark.faith = trusted(looks, t.inherited(mark))
	left := make([]open, len(frames))
	for i, n := range frames {
		out[n], left[i] = looks[i].onThat(mark.faith)
	}
	shared(left)
	for i, n := range frames {
		p := out[n]
		p.Doubt = left[i].doubt()
		out[n] = furthered(looks[i].base, p)
		out[n].Shared, out[n].Known = p.Shared, p.Known
	}
}

// beside is how far from a block another may be, in blocks, to lie on the same thing.
const beside = 1.5

// inherited tells which blocks of a landmark lie beside such as are trusted of what that was laid on
// itself; none where it was laid on nothing.
func (t *Tracker) inherited(mark *landmark) []bool {
	anchors, l := mark.picture.anchors[0], t.looks[mark.born]
	out := make([]bool, len(anchors))
	if l.mark == nil {
		return out
	}
	list := l.list()
	for n := range anchors {
		nearest := beside * block
		for _, m := range list {
			x, y := l.base.At(m.x+m.dx, m.y+m.dy)
			if d := math.Hypot(x-anchors[n].x, y-anchors[n].y); d < nearest {
				nearest, out[n] = d, l.mark.faith[m.n].weight > 0
			}
		}
	}
	return out
}

// onThat is by how much further the frame lies on its landmark than it was looked for, by the blocks
// that are trusted, and what these leave open; not known where too few of them were found.
func (l look) onThat(faith []trust) (footage.Pose, open) {
	var list []moved
	for _, m := range l.list() {
		if faith[m.n].weight > 0 {
			list = append(list, m)
		}
	}
	fit, agree := agreed(list)
	if agree < fewest {
		return footage.Pose{Scale: 1}, open{}
	}
	p, agree, left := settled(list, fit, faith)
	p.Known = agree >= fewest
	p.Shared = float64(agree) / float64(len(faith))
	return p, left
}
