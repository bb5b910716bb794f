package journal

// Maybe is a value that the keeper may have left out. The zero Maybe is "not written".
type Maybe[T any] struct {
	Value T
	Known bool
}

// Known wraps a value that the keeper wrote.
func Known[T any](value T) Maybe[T] { return Maybe[T]{Value: value, Known: true} }

// Or returns the value, or other when it was left out.
func (m Maybe[T]) Or(other T) T {
	if m.Known {
		return m.Value
	}
	return other
}
