package stepplayer

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// State is what a player is doing.
type State byte

// The states of a player.
const (
	StandingBy State = iota
	Playing
	Slowing
	Held
	Ended
	Starved
	Aborted
	Alarm
)

// String prints the state in the words of PROTOCOL.md.
func (s State) String() string {
	names := [...]string{"standing by", "playing", "slowing down", "held", "ended", "starved", "aborted", "alarm"}
	if int(s) >= len(names) {
		return fmt.Sprintf("state %d", byte(s))
	}
	return names[s]
}

// Moves tells whether motors turn.
func (s State) Moves() bool { return s == Playing || s == Slowing }

// Keeps tells whether the place is to be trusted at rest.
func (s State) Keeps() bool { return s == StandingBy || s == Held || s == Ended || s == Starved }

// Reason says why a frame was not obeyed.
type Reason byte

// The reasons.
const (
	Lost      Reason = 1 // a frame before it was lost
	NoRoom    Reason = 2
	CannotBe  Reason = 3 // a payload that makes no sense
	NotNow    Reason = 4
	InAlarm   Reason = 5
	noReasons        = 6
)

// String prints the reason in words.
func (r Reason) String() string {
	names := [noReasons]string{"no reason", "a frame was lost", "no room", "a payload that cannot be", "not now", "in alarm"}
	if r >= noReasons {
		return fmt.Sprintf("reason %d", byte(r))
	}
	return names[r]
}

// Versions of the protocol that this package speaks: the second has outputs.
const (
	Version        = 1
	VersionOutputs = 2
)

// HoldRows is over how many rows a player slows down and speeds up: at ticks of
// a millisecond a quarter of a second, gentle enough from 400 mm/s.
const HoldRows = 128

// Player is what a player says of itself.
type Player struct {
	Version  byte
	Axes     int
	Capacity int    // rows it can store
	Shortest uint32 // ns, its shortest tick
	Outputs  int    // that it can switch; 0 before VersionOutputs
	Name     string
}

// Status is what a player says it is doing.
type Status struct {
	State  State
	Room   int    // rows it has room for
	Played uint32 // rows since it began
	Steps  []int32
}

// ErrShort is the error of a payload that has fewer bytes than it should.
var ErrShort = errors.New("payload too short")

// errState is the error of a status with a state that the protocol does not have.
var errState = errors.New("a state that the protocol does not have")

// Tell returns the payload of a hello's answer.
func (p Player) Tell() []byte {
	buf := []byte{p.Version, byte(p.Axes)}
	buf = binary.LittleEndian.AppendUint16(buf, uint16(p.Capacity))
	buf = binary.LittleEndian.AppendUint32(buf, p.Shortest)
	if p.Version >= VersionOutputs {
		buf = append(buf, byte(p.Outputs))
	}
	return append(buf, p.Name...)
}

// ReadPlayer reads the payload of a hello's answer.
func ReadPlayer(b []byte) (Player, error) {
	const fixed = 8
	if len(b) < fixed {
		return Player{}, ErrShort
	}
	p := Player{
		Version: b[0], Axes: int(b[1]), Capacity: int(binary.LittleEndian.Uint16(b[2:])),
		Shortest: binary.LittleEndian.Uint32(b[4:]),
	}
	rest := b[fixed:]
	if p.Version >= VersionOutputs {
		if len(rest) == 0 {
			return Player{}, ErrShort
		}
		p.Outputs, rest = int(rest[0]), rest[1:]
	}
	p.Name = string(rest)
	return p, nil
}

// Tell returns the payload of a status.
func (s Status) Tell() []byte {
	buf := binary.LittleEndian.AppendUint16([]byte{byte(s.State)}, uint16(s.Room))
	return AppendPlaces(binary.LittleEndian.AppendUint32(buf, s.Played), s.Steps)
}

// ReadStatus reads the payload of a status.
func ReadStatus(b []byte) (Status, error) {
	const fixed = 7
	if len(b) < fixed || (len(b)-fixed)%4 != 0 {
		return Status{}, ErrShort
	}
	if State(b[0]) > Alarm {
		return Status{}, fmt.Errorf("%d: %w", b[0], errState)
	}
	s := Status{State: State(b[0]), Room: int(binary.LittleEndian.Uint16(b[1:])), Played: binary.LittleEndian.Uint32(b[3:])}
	for rest := b[fixed:]; len(rest) > 0; rest = rest[4:] {
		s.Steps = append(s.Steps, int32(binary.LittleEndian.Uint32(rest)))
	}
	return s, nil
}

// AppendPlaces appends absolute steps, as Place has them.
func AppendPlaces(buf []byte, steps []int32) []byte {
	for _, n := range steps {
		buf = binary.LittleEndian.AppendUint32(buf, uint32(n))
	}
	return buf
}

// BeginPayload returns the payload of Begin: a tick in ns and how many axes.
func BeginPayload(tick uint32, axes int) []byte {
	return append(binary.LittleEndian.AppendUint32(nil, tick), byte(axes))
}

// ReadAck reads the payload of an acknowledgement: rows there is room for.
func ReadAck(b []byte) (room int, err error) {
	if len(b) < 2 {
		return 0, ErrShort
	}
	return int(binary.LittleEndian.Uint16(b)), nil
}

// ReadRefused reads the payload of a refusal.
func ReadRefused(b []byte) (Reason, int, error) {
	if len(b) < 3 {
		return 0, 0, ErrShort
	}
	return Reason(b[0]), int(binary.LittleEndian.Uint16(b[1:])), nil
}

// SwitchPayload is that of Switch: which outputs are on, and after how many ms the player
// switches them off by itself; 0 = it does not.
func SwitchPayload(on byte, ms uint32) []byte {
	if ms == 0 {
		return []byte{on}
	}
	return binary.LittleEndian.AppendUint32([]byte{on}, ms)
}
