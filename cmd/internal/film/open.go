package film

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/film/apng"
	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/film/reduce"
	"seamrail/cmd/internal/film/stills"
	"seamrail/cmd/internal/film/y4m"
	"seamrail/motion/footage"
)

// Open opens a recording: a folder of stills, a pattern of their names with * or %04d in its
// last part, a file, or "-" for YUV4MPEG2 from Options.Stdin. What kind a file is, its first
// bytes tell; a name that is there is that file, whatever is in it. Reading stops when ctx
// ends, though not while standard input gives nothing. The caller closes it. The error is a *NoDecoder where a film file needs one.
func Open(ctx context.Context, what string, o Options) (*Take, error) {
	if err := o.Frames.check(); err != nil {
		return nil, err
	}
	if o.Rate.Sign() < 0 {
		return nil, fmt.Errorf("rate %s must be above 0 frames a second", o.Rate)
	}
	t := &Take{ctx: ctx, wanted: o.Frames, name: func(int) string { return "" }, told: func() odd.Remarks { return nil }}
	if err := t.open(what, o); err != nil {
		return nil, err
	}
	if err := t.prepare(o); err != nil {
		return nil, errors.Join(err, t.in.Close())
	}
	return t, nil
}

// prepare makes of a recording what the options want.
func (t *Take) prepare(o Options) (err error) {
	if t.grid, err = reduce.NewGrid(t.about.Width, t.about.Height, o.Region, o.Scale); err != nil {
		return fmt.Errorf("%s: %w", t.about.Name, err)
	}
	t.rows = reduce.NewRows(t.grid)
	if o.Rate.Sign() > 0 {
		if has := t.about.Rate; has.Sign() > 0 && !has.Equal(o.Rate) {
			t.own.Add(odd.Rate, "%s says %s frames a second; %s is taken, as was asked", t.about.Name, has, o.Rate)
		}
		t.about.Rate = o.Rate
	}
	return nil
}

func (t *Take) open(what string, o Options) error {
	if what == Stdin {
		if o.Stdin == nil {
			return errors.New("there is no standard input to read")
		}
		return t.video("standard input", o.Stdin, nil)
	}
	info, err := os.Stat(what)
	switch {
	case err == nil && info.IsDir():
		files, err := stills.Folder(what)
		return t.stills(what, what, files, err)
	case err != nil && stills.Patterned(what):
		files, err := stills.Matching(what)
		return t.stills(what, filepath.Dir(what), files, err)
	}
	return t.file(what, o)
}

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
	t.in, t.name, t.told = r, r.Name, func() odd.Remarks { return append(odd.Remarks(nil), odds...) }
	t.about = footage.About{Name: what, Width: r.Width, Height: r.Height, Bits: r.Bits, Frames: len(files)}
	return nil
}

// file opens a file by what it begins with.
func (t *Take) file(what string, o Options) error {
	f, err := atomicfile.Open(what)
	if cause, ok := atomicfile.Cause(err); ok {
		return fmt.Errorf("cannot read %s: %w", what, cause)
	}
	if err != nil {
		return err
	}
	begin := make([]byte, max(len(apng.Magic), len(y4m.Magic)))
	n, err := io.ReadFull(f, begin)
	if n > 0 {
		_, err = f.Seek(0, io.SeekStart)
	}
	if err != nil {
		return errors.Join(fmt.Errorf("%s has nothing in it that can be read: %w", what, err), f.Close())
	}
	return t.kind(what, begin[:n], f, o)
}

// kind hands a file to who reads it, and closes it where that is another way.
func (t *Take) kind(what string, begin []byte, f *os.File, o Options) error {
	still := bytes.HasPrefix(begin, []byte(apng.Magic))
	switch {
	case bytes.HasPrefix(begin, []byte(y4m.Magic)):
		return closed(t.raw(what, f), f)
	case still:
		err := t.animation(what, f)
		if !errors.Is(err, apng.ErrStill) {
			return closed(err, f)
		}
	}
	if err := f.Close(); err != nil {
		return err
	}
	if still || stills.Readable(what) {
		dir, base := filepath.Split(what)
		return t.stills(what, dir, []stills.Named{stills.NewNamed(base)}, nil)
	}
	return t.decoded(what, o)
}

// closed closes a file that nobody will read.
func closed(err error, f *os.File) error {
	if err == nil {
		return nil
	}
	return errors.Join(err, f.Close())
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
	t.in = withFile{r.Read, f, r.Count}
	t.told = func() odd.Remarks { return append(odd.Remarks(nil), r.Remarks...) }
	h := r.Header
	t.about = footage.About{Name: name, Width: h.Width, Height: h.Height, Bits: h.Bits, Rate: h.Rate}
	return nil
}

func (t *Take) animation(name string, f *os.File) error {
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
	t.in = withFile{read: r.Read, file: f}
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
	f, err := decoder.Open(t.ctx, what, look)
	if err != nil {
		return err
	}
	t.in, t.told, t.about = f, f.Remarks, f.About
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
