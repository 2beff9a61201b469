package film

import (
	"errors"
	"io"
	"os"

	"seamrail/cmd/internal/film/apng"
	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/film/stills"
	"seamrail/cmd/internal/film/y4m"
	"seamrail/motion/footage"
)

// stills opens files of a folder as one recording.
func (t *Take) stills(what, dir string, files []stills.Named, err error) error {
	if err != nil {
		return err
	}
	r, err := stills.NewReader(dir, files)
	if err != nil {
		return err
	}
	odds := stills.Remarks(files)
	t.colours = coloured{r.ReadColour, nil}
	t.in, t.name, t.told = r, r.Name, func() odd.Remarks { return append(odd.Remarks(nil), odds...) }
	t.about = footage.About{Name: what, Width: r.Width, Height: r.Height, Bits: r.Bits, Frames: len(files)}
	return nil
}

// raw opens a file of YUV4MPEG2. How many frames it has, its size tells.
func (t *Take) raw(name string, f *os.File) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if err := t.video(name, f, f); err != nil {
		return err
	}
	t.about.Frames = t.in.(withFile).count(info.Size())
	return nil
}

// video opens YUV4MPEG2; f is what is to be closed, nil where that is the caller's.
func (t *Take) video(name string, in io.Reader, f io.Closer) error {
	r, err := y4m.NewReader(name, in)
	if err != nil {
		return err
	}
	t.in, t.colours = withFile{r.Read, f, r.Count}, coloured{r.ReadColour, byMatrix(r.Header.Matrix())}
	t.told = func() odd.Remarks { return append(odd.Remarks(nil), r.Remarks...) }
	h := r.Header
	t.about = footage.About{Name: name, Width: h.Width, Height: h.Height, Bits: h.Bits, Rate: h.Rate}
	return nil
}

func (t *Take) animation(name string, f *os.File, o Options) error {
	about, err := apng.Scan(name, f)
	if err != nil {
		return err
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return err
	}
	r, err := apng.NewReader(name, f)
	if err != nil {
		return err
	}
	if o.as == decoder.Coloured {
		r.Colour()
	}
	t.in, t.colours = withFile{read: r.Read, file: f}, coloured{r.ReadColour, nil}
	t.told = func() odd.Remarks { return about.Remarks(name) }
	t.about = footage.About{Name: name, Width: about.Width, Height: about.Height, Bits: about.Bits, Rate: about.Rate, Frames: about.Frames}
	return nil
}

// decoded opens a film file with the decoder.
func (t *Take) decoded(what string, o Options) error {
	look := o.Decoder
	if look == nil {
		look = func(name string) (string, error) { return "", errors.New("no decoder is used") }
	}
	f, err := decoder.Open(t.ctx, what, look, o.as)
	if err != nil {
		return err
	}
	t.in, t.told, t.about, t.colours = f, f.Remarks, f.About, coloured{f.ReadColour, byMatrix(y4m.BT709)}
	return nil
}

// withFile is a reader with the file that it reads.
type withFile struct {
	read  func(row func(y int, row []float32)) error
	file  io.Closer
	count func(size int64) int // how many frames a file of that size has; 0 where it does not tell
}

func (w withFile) Read(row func(y int, row []float32)) error { return w.read(row) }

func (w withFile) Close() error {
	if w.file == nil {
		return nil
	}
	return w.file.Close()
}
