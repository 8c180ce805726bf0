//! The seam at which a shell may time the work.

/// Does a piece of work under its name: a rule's, or a step of the analysis.
/// Whoever hands one in may read a clock around the work; nothing here does.
pub type Stopwatch<'a> = &'a (dyn Fn(&'static str, &mut dyn FnMut()) + Sync);

/// Does the work and times nothing.
pub fn untimed(_: &'static str, work: &mut dyn FnMut()) {
    work();
}

/// What a piece of work gives, done under its name.
pub fn timed<T: Default>(watch: Stopwatch<'_>, name: &'static str, work: impl FnOnce() -> T) -> T {
    let (mut work, mut result) = (Some(work), T::default());
    watch(name, &mut || {
        if let Some(work) = work.take() {
            result = work();
        }
    });
    result
}

#[cfg(test)]
mod tests {
    use std::sync::Mutex;

    use super::*;

    #[test]
    fn work_is_done_once_under_its_name() {
        let names = Mutex::new(Vec::new());
        let watch = |name: &'static str, work: &mut dyn FnMut()| {
            names.lock().unwrap().push(name);
            work();
            work();
        };
        let mut count = 0;
        let result = timed(&watch, "lip", || {
            count += 1;
            "done"
        });
        assert_eq!((result, count), ("done", 1));
        assert_eq!(*names.lock().unwrap(), ["lip"]);
        assert_eq!(timed(&untimed, "lip", || 7), 7);
    }
}
