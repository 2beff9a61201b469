package source

import (
	"bytes"

	"seamrail/motion/base/fault"
)

// Rename returns the document with another key in the place of the last one of path, and every
// other byte as it was. The error is a fault.List: the document is not TOML, nothing is at the
// path, the key is there already, or it stands where no single word of the file is that key.
func Rename(file string, data []byte, path, key string) ([]byte, error) {
	steps := stepsOf(path)
	last := steps[len(steps)-1]
	to := join(pathOf(steps[:len(steps)-1]), key)
	root, faults := parse(file, "", data)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	if at, ok := root.keyAt(path); ok && last.item == 0 && root.at(to) == nil {
		start := offset(data, at)
		for _, was := range []string{tomlKey(last), written(last.key, false), "'" + last.key + "'"} {
			if !bytes.HasPrefix(data[start:], []byte(was)) {
				continue
			}
			out := splice(data, start, start+len(was), tomlKey(pathStep{key: key}))
			now, faults := parse(file, "", out)
			if len(faults) == 0 && now.at(to) != nil && now.at(path) == nil {
				return out, nil
			}
		}
	}
	f := fault.Fault{File: file, Bound: "has no place in the file where it could be called " + quote(key), Fit: "write it by hand"}
	f.Axis, f.Quantity = split(path)
	return nil, fault.List{f}
}

// keyAt is where the last key of a path stands.
func (n *node) keyAt(path string) (Place, bool) {
	steps := stepsOf(path)
	if len(steps) > 1 {
		n = n.at(pathOf(steps[:len(steps)-1]))
	}
	if n == nil {
		return Place{}, false
	}
	for _, e := range n.entries {
		if e.key == steps[len(steps)-1].key {
			return e.place, true
		}
	}
	return Place{}, false
}

// offset is where a line and column begin, in bytes; the end where there are fewer.
func offset(data []byte, at Place) int {
	start := 0
	for range at.Line - 1 {
		i := bytes.IndexByte(data[start:], '\n')
		if i < 0 {
			return len(data)
		}
		start += i + 1
	}
	return min(start+max(at.Column-1, 0), len(data))
}
