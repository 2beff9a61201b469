package rig

// maxBacklash is play, in mm or degrees, that nobody would film with: more is
// a slip of the hand.
const maxBacklash = 100

// backlash reads the play of an axis. Left out, nothing is known of it, which is
// not the same as none.
func (b axisBuilder) backlash(a *Axis) {
	t, path := b.raw.Backlash, b.path+"backlash"
	if !t.Set {
		return
	}
	q, ok := b.position(a.Kind, t, path)
	v := q.Float()
	if ok && (v < 0 || v > maxBacklash) {
		b.report.Wrong(t, path, "must be from 0 to 100 "+a.Unit(), "")
	}
	a.Backlash = &v
}
