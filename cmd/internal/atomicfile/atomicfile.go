package atomicfile

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"seamrail/cmd/internal/hold"
)

// bufferSize is how much is written at a time; large enough that tables of
// millions of steps are not held up by the system call.
const bufferSize = 1 << 18

// nameTries is how many names for what is temporary are tried before the folder
// is held to be at fault. Two of them alike is a chance of 2^-64; what is swept by
// another run before it is held takes one more.
const nameTries = 8

// Write calls fill with a writer and puts what it wrote at path. When fill or
// the disk fails, path is as it was and the error names it. A device or pipe
// is written to directly, since replacing it would be a surprise; a symbolic
// link keeps pointing where it did and its target is replaced. A file that this
// run has read is refused.
func Write(path string, fill func(io.Writer) error) error { return write(path, "", fill) }

// WriteBack is Write for a file that was read in order to be changed.
func WriteBack(path string, fill func(io.Writer) error) error {
	real, err := Real(path)
	if err != nil {
		return plain(path, err)
	}
	return write(path, real, fill)
}

func write(path, but string, fill func(io.Writer) error) error {
	if path == "" {
		return errors.New("the file to write has no name")
	}
	target, err := Real(path)
	if err != nil {
		target = path // the next step says what is wrong
	}
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := dangling(path); err != nil {
			return err
		}
		return replace(path, target, but, 0, fill)
	case err != nil:
		return plain(path, err)
	case info.IsDir():
		return fmt.Errorf("%s is a folder; name a file in it, such as %s", path, filepath.Join(path, "loop.out"))
	case !info.Mode().IsRegular():
		return direct(path, fill)
	}
	return replace(path, target, but, info.Mode(), fill)
}

// dangling refuses a link that leads nowhere: whoever made it meant a place that
// is not there now, such as a card that has been taken out.
func dangling(path string) error {
	if to, err := os.Readlink(path); err == nil {
		return fmt.Errorf("%s is a link to %s, which is not there; name that file itself, or take the link away", path, to)
	}
	return nil
}

// direct writes to something that is not a regular file.
func direct(path string, fill func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return plain(path, err)
	}
	err = buffered(f, fill)
	return plain(path, errors.Join(err, f.Close()))
}

// replace writes beside target and renames over it. A mode of 0 means that of
// a new file.
func replace(path, target, but string, mode fs.FileMode, fill func(io.Writer) error) error {
	if err := refused(path, but); err != nil {
		return err
	}
	dir, base := filepath.Dir(target), filepath.Base(target)
	Sweep(target)
	part, drop, err := beside(dir, base)
	if err != nil {
		return plain(path, err)
	}
	defer drop()
	if err := filled(part.file, part.name, mode, fill); err != nil {
		return plain(path, err)
	}
	return plain(path, inOneGo(func() error {
		if err := refused(path, but); err != nil { // a link may have been laid meanwhile
			return err
		}
		err := on.rename(part.name, target)
		_ = on.sync(dir)
		return err
	}))
}

// part is a file on its way.
type part struct {
	name string
	file file
}

// beside opens a new file in target's folder, held until drop.
func beside(dir, base string) (p part, drop func(), err error) {
	drop, err = began(func() (string, func(), error) {
		for range nameTries {
			p.name = filepath.Join(dir, PartName(base))
			if p.file, err = on.create(p.name); err != nil {
				if errors.Is(err, fs.ErrExist) {
					continue
				}
				return "", nil, err
			}
			h, held := hold.Existing(p.name)
			if held == nil {
				name := p.name
				return name, func() { _ = on.remove(name); h.Close() }, nil
			}
			_ = p.file.Close()
			_ = on.remove(p.name)
			err = held
		}
		return "", nil, err
	})
	return p, drop, err
}

// filled fills a file, which is then closed.
func filled(f file, name string, mode fs.FileMode, fill func(io.Writer) error) error {
	var err error
	if mode != 0 {
		err = on.chmod(name, mode) // first: what may not be read by all is not, half written neither
	}
	if err == nil {
		err = buffered(f, fill)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

func buffered(f io.Writer, fill func(io.Writer) error) error {
	b := bufio.NewWriterSize(f, bufferSize)
	if err := fill(b); err != nil {
		return err
	}
	return b.Flush()
}

// plain words an error of the system for someone who has not read its manual.
// Errors that are not the system's pass as they are.
func plain(path string, err error) error {
	var system *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &system):
		return fmt.Errorf("cannot write %s: %w; nothing was changed", path, system.Err)
	case errors.As(err, &link):
		return fmt.Errorf("cannot write %s: %w; nothing was changed", path, link.Err)
	}
	return err
}
