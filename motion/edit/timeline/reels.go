package timeline

import (
	"fmt"
	"path"
	"strings"

	"seamrail/motion/edit/sequence"
)

// namesOf are the names of the recordings, one a piece: as the sequence has them, or the
// beginning of what the camera calls it, such as "A001C004", or of the shot's file and the
// take, such as "REVEAL_2". Where another recording
// would be called so too, the number of what is filmed, or the next that is free, stands for
// the file.
func namesOf(c *sequence.Clip, footage []Footage) ([]string, error) {
	taken := map[string]recording{}
	out := make([]string, len(c.Pieces))
	for i, p := range c.Pieces {
		if out[i] = p.Entry.Reel; out[i] == "" {
			continue
		}
		name, this := strings.ToUpper(out[i]), recordingOf(p, footage[i])
		if is, ok := taken[name]; ok && is != this {
			return nil, p.Entry.Doubled(c.File)
		}
		taken[name] = this
	}
	for i, p := range c.Pieces {
		if out[i] != "" {
			continue
		}
		this, take := recordingOf(p, footage[i]), footage[i].Number()
		name := nameOf(p.Entry.File, take)
		if clip := footage[i].Clip; clip != "" {
			name = lettersOf(clip, sequence.MaxReel)
		}
		for n := p.Film + 1; ; n++ {
			if is, ok := taken[name]; !ok || is == this {
				break
			}
			name = fmt.Sprintf("S%d_%d", n, take)
		}
		taken[name] = this
		out[i] = name
	}
	return out, nil
}

// recording is a take of a shot, whatever a sequence has it stand for, or one that is to
// be filmed of what there is to film.
type recording struct {
	file       string
	take, film int
}

func recordingOf(p sequence.Piece, f Footage) recording {
	if f.Planned() {
		return recording{film: p.Film}
	}
	return recording{file: p.Entry.File, take: f.Take}
}

// nameOf is a name of at most sequence.MaxReel characters where the take has few enough
// digits.
func nameOf(file string, take int) string {
	end := fmt.Sprintf("_%d", take)
	return lettersOf(file, max(0, sequence.MaxReel-len(end))) + end
}

// lettersOf are the first letters and digits of the name of a file without its ending.
func lettersOf(file string, most int) string {
	stem := strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, strings.ToUpper(strings.TrimSuffix(path.Base(file), path.Ext(file))))
	if stem == "" {
		stem = "SHOT"
	}
	return stem[:min(len(stem), most)]
}
