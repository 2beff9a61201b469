package sequence

import "seamrail/motion/camera/picture"

// maxSamples bounds the frames of a piece that are looked at: more than a
// strip has dots for it.
const maxSamples = 240

// Sample is the motion at one frame of a piece.
type Sample struct {
	Frame int64         // of the piece, from 0
	Flow  *picture.Flow // nil where it is not known
	Axes  []AxisSpeed
}

// Samples looks at evenly spaced frames of a piece, its first and its last among
// them. The error is what a scene is wrong with.
func (p Piece) Samples() ([]Sample, error) {
	every := max(1, (p.Frames+maxSamples-1)/maxSamples)
	var at []int64
	for k := int64(0); k < p.Frames-1; k += every {
		at = append(at, p.From+k)
	}
	at = append(at, p.Last())
	sides, _, err := p.sides(at...)
	if err != nil {
		return nil, err
	}
	out := make([]Sample, len(sides))
	for i, s := range sides {
		out[i] = Sample{at[i] - p.From, s.Flow, s.Axes}
	}
	return out, nil
}
