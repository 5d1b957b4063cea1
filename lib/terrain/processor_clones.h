/// Row loops compiled more than once: for every processor, and for those that work eight or sixteen floats at once
/// (x86-64-v3 and v4). The program picks one when it starts.
///
/// The results are the same to the bit: each lane does the operations of the plain loop in its order, and no multiply
/// is fused with an add, since the whole project is compiled with -ffp-contract=off. Elsewhere (other compilers and
/// processors, and under the thread sanitizer, which isn't ready yet when the program picks) it says nothing.
/// A macro, since the attribute must not be written at all where it isn't known.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_THREAD__)
#define SOILHOLD_PROCESSOR_CLONES [[gnu::target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")]]
#else
#define SOILHOLD_PROCESSOR_CLONES
#endif
