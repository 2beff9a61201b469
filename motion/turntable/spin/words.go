package spin

// What an operator has to know of a stand that is not commanded, in words.
const (
	// AnyFace is about its start.
	AnyFace = "The stand is not started by the rig: any face may be in front at frame 0. The loop closes from any, but two takes show different faces"
	// MarkFace is how to find the face again.
	MarkFace = "To match takes, put a strip of tape on the stand's edge and another on the table beside it, out of the picture, and start the take as they meet"
	// Settle is about its speed.
	Settle = "Let it run a few minutes before it is timed and filmed, with the product on it: a cold or loaded motor runs slower"
	// Against is about its direction.
	Against = "Seen from above, a clockwise stand carries its near face to the left of the picture. A carriage that goes right then adds to it, one that goes left takes from it; where the carriage turns round, so does this"
)
