package editlist

import "seamrail/motion/edit/timeline"

// source is the label of a frame of what an event is of.
func (l *list) source(e timeline.Event, frame int64) string {
	return l.t.Clip.Timecode.Label(l.counted(e) + frame)
}

// counted is what the labels of an event's film count before its first frame: what its timecode
// does, where that counts as the list does.
func (l *list) counted(e timeline.Event) int64 {
	if !l.byTimecode(e) {
		return 0
	}
	return e.Film.Start()
}

// byTimecode tells whether the timecode of an event's film counts as the list does.
func (l *list) byTimecode(e timeline.Event) bool {
	if !e.InFilm() {
		return false
	}
	tc, _, err := e.Film.Labels()
	own := l.t.Clip.Timecode
	return err == nil && tc.Nominal() == own.Nominal() && tc.Drop == own.Drop
}

// inFilm tells of an event how the frames of its film are counted, and of which take it is.
func (l *list) inFilm(e timeline.Event, s span) {
	f := e.Film
	in, out := s.whole()
	switch {
	case l.byTimecode(e):
		l.line("* LABELS OF REEL %s ARE ITS OWN TIMECODE", e.Reel)
	case f.Label(in) != "":
		l.line("* LABELS OF REEL %s COUNT THE FRAMES OF ITS FILE FROM 0; BY ITS OWN TIMECODE %s TO %s", e.Reel, f.Label(in), f.Label(out))
	default:
		l.line("* LABELS OF REEL %s COUNT THE FRAMES OF ITS FILE FROM 0; IT HAS NO TIMECODE", e.Reel)
	}
	l.line("* %s, ROUND %d: FRAME 0 OF THE PLAN IS AT FRAME %.2f", fitted(l.t.Piece(e).Entry.File+", "+e.Name(), maxTitle), e.Round+1, f.Zero)
}
