package stepplayer

// Waiting tells whether part of a frame is there and the rest is not.
func (r *Reader) Waiting() bool { return len(r.held) > 0 }

// GiveUp drops the start of a frame whose rest did not come in time.
func (r *Reader) GiveUp() {
	if len(r.held) > 0 {
		r.drop(1)
	}
}
