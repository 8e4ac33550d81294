// Package pick takes from lists, and of two values, what a condition says.
package pick

// Map returns what of makes of each of a list, in order: nil of an empty one.
func Map[S ~[]T, T, U any](list S, of func(T) U) []U {
	if len(list) == 0 {
		return nil
	}
	made := make([]U, len(list))
	for i, x := range list {
		made[i] = of(x)
	}
	return made
}

// Gather returns all that of makes of a list, in order: nil where that is nothing.
func Gather[S ~[]T, T, U any](list S, of func(T) []U) (made []U) {
	for _, x := range list {
		made = append(made, of(x)...)
	}
	return made
}

// Where returns those of a list that are to be kept, in order: nil where there are none.
func Where[S ~[]T, T any](list S, keep func(T) bool) (kept S) {
	for _, x := range list {
		if keep(x) {
			kept = append(kept, x)
		}
	}
	return kept
}

// First returns the first of a list that is wanted, or the zero value.
func First[S ~[]T, T any](list S, wanted func(T) bool) (none T) {
	for _, x := range list {
		if wanted(x) {
			return x
		}
	}
	return none
}

// Count returns how many of a list are meant.
func Count[S ~[]T, T any](list S, meant func(T) bool) int { return len(Where(list, meant)) }

// By returns a list apart, by what of says of each.
func By[S ~[]T, T any, K comparable](list S, of func(T) K) map[K]S {
	parts := map[K]S{}
	for _, x := range list {
		key := of(x)
		parts[key] = append(parts[key], x)
	}
	return parts
}

// Groups returns the parts that By makes in the order in which the first of each stands in the list.
func Groups[S ~[]T, T any, K comparable](list S, of func(T) K) []S {
	var groups []S
	at := map[K]int{}
	for _, x := range list {
		i, known := at[of(x)]
		if !known {
			i = len(groups)
			at[of(x)], groups = i, append(groups, nil)
		}
		groups[i] = append(groups[i], x)
	}
	return groups
}

// Either returns one of two values, both of which are worked out.
func Either[T any](yes bool, so, otherwise T) T {
	if yes {
		return so
	}
	return otherwise
}
