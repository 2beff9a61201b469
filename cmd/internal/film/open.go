package film

import (
	"bytes"
	"cmp"
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
)

// Open opens a recording: a folder of stills, a pattern of their names with * or %04d in its
// last part, a file, or "-" for YUV4MPEG2 from Options.Stdin. What kind a file is, its first
// bytes tell; a name that is there is that file, whatever is in it. Reading stops when ctx
// ends, though not while standard input gives nothing. The caller closes it. The error is a *NoDecoder where a film file needs one.
func Open(ctx context.Context, what string, o Options) (*Take, error) {
	return open(ctx, what, o, decoder.Grey)
}

func open(ctx context.Context, what string, o Options, as decoder.As) (*Take, error) {
	o.as = as
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
	if wide := cmp.Or(o.Region.Width, t.about.Width); o.Scale == 0 && o.Widest > 0 && wide > o.Widest {
		o.Scale = float64(o.Widest) / float64(wide)
	}
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
		err := t.animation(what, f, o)
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
