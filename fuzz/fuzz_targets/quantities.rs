#![no_main]

use libfuzzer_sys::fuzz_target;
use raisedbody_fuzz::targets;

fuzz_target!(|data: &[u8]| targets::quantities(data));
