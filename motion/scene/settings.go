package scene

import "seamrail/motion/camera/optics"

// Open is how long the shutter is open, in s, of a captured frame that lasts so long.
func (k Camera) Open(frame float64) Number {
	if !k.Shutter.Given && k.ShutterAngle.Given {
		return Is(k.ShutterAngle.Value / 360 * frame)
	}
	return k.Shutter
}

// Third is the lens with the third of focal length, magnification and focus, where two
// of them are known.
func (l Lens) Third() Lens {
	f, m, u := &l.FocalLength, &l.Magnification, &l.Focus
	switch {
	case f.Given && m.Given && !u.Given:
		*u = Is(optics.FocusAt(f.Value, m.Value))
	case f.Given && u.Given && !m.Given:
		*m = Is(optics.Magnification(f.Value, u.Value))
	case m.Given && u.Given && !f.Given:
		*f = Is(u.Value * m.Value / (1 + m.Value))
	}
	return l
}
