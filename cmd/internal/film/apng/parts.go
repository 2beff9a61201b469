package apng

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// plain takes data of the picture that those see who know no animation. It is the first
// of the animation where its control came before, and none of it where not.
func (r *Reader) plain(h head) error {
	if r.begun = true; r.coming == nil {
		return r.pass(h)
	}
	if r.frames > 0 {
		return errors.New("IDAT comes where fdAT should")
	}
	return r.append(h)
}

func (r *Reader) append(h head) error {
	if limit := largest(*r.coming); int64(r.data.Len())+h.length > limit {
		return fmt.Errorf("its data have more than %d bytes, which %d x %d px cannot need", limit, r.coming.width, r.coming.height)
	}
	return r.body(h, &r.data)
}

// part takes data of a picture; those of one that has no control belong to none.
func (r *Reader) part(h head) error {
	if r.coming == nil || h.length < sumSize {
		return errors.New("fdAT has no picture or no number")
	}
	from := r.data.Len()
	if err := r.append(h); err != nil {
		return err
	}
	b := r.data.Bytes()
	if err := r.count(binary.BigEndian.Uint32(b[from:])); err != nil {
		return err
	}
	r.data.Truncate(from + copy(b[from:], b[from+sumSize:]))
	return nil
}

// count holds a sequence number to those before.
func (r *Reader) count(n uint32) error {
	if n != r.counted {
		return fmt.Errorf("part %d comes where %d should", n, r.counted)
	}
	r.counted++
	return nil
}

func (r *Reader) control(h head) error {
	b, err := r.small(h)
	if err != nil {
		return err
	}
	c, err := parseControl(b, r.head)
	if err != nil {
		return err
	}
	if !r.begun && (c.width != r.head.width || c.height != r.head.height) {
		return errors.New("the first picture does not cover all, as it has to")
	}
	r.coming = &c
	return r.count(c.sequence)
}
