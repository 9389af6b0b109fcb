package bind

import "slices"

// Items are a list of the job: Get gives it as it is, Put has it changed.
type Items[T any] struct {
	Get func() []T
	Put func(what string, change func(*[]T)) error
}

// Item gives item i as a value of its own; the zero value once it is gone.
func (l Items[T]) Item(i int) (get func() T, put func(what string, change func(*T)) error) {
	get = func() (item T) {
		if all := l.Get(); i < len(all) {
			item = all[i]
		}
		return item
	}
	return get, func(what string, change func(*T)) error {
		return l.Put(what, func(all *[]T) {
			if i < len(*all) {
				*all = slices.Clone(*all)
				change(&(*all)[i])
			}
		})
	}
}

// Remove removes item i, if it is still there.
func (l Items[T]) Remove(what string, i int) error {
	return l.Put(what, func(all *[]T) {
		if i < len(*all) {
			*all = slices.Delete(slices.Clone(*all), i, i+1)
		}
	})
}

// Append adds an item.
func (l Items[T]) Append(what string, item T) error {
	return l.Put(what, func(all *[]T) { *all = append(slices.Clone(*all), item) })
}
