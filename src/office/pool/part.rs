//! Which recordings a machine hears where several share them: told by their digests alone, so that nobody has to hand
//! them out.

use std::str::FromStr;

/// One part of several.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// Which, from 0.
    number: u64,
    of: u64,
}

/// A part that isn't one: a sentence for a person.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct PartError(String);

/// How a kind of array job tells its tasks which of how many they are.
struct Array {
    /// The variable with the number of the task.
    task: &'static str,
    /// The variable with how many tasks there are.
    tasks: &'static str,
    /// The variables with the first number and the step from one to the next, where they need not be 0 and 1.
    counted: Option<(&'static str, &'static str)>,
}

/// Kubernetes doesn't tell a pod how many there are: the job's file sets `EAVESDRAFT_PARTS` for that.
const ARRAYS: [Array; 3] = [
    Array { task: "JOB_COMPLETION_INDEX", tasks: "EAVESDRAFT_PARTS", counted: None },
    Array {
        task: "SLURM_ARRAY_TASK_ID",
        tasks: "SLURM_ARRAY_TASK_COUNT",
        counted: Some(("SLURM_ARRAY_TASK_MIN", "SLURM_ARRAY_TASK_STEP")),
    },
    Array { task: "AWS_BATCH_JOB_ARRAY_INDEX", tasks: "AWS_BATCH_JOB_ARRAY_SIZE", counted: None },
];

impl Part {
    /// Everything, as the only part.
    pub const ALL: Self = Self { number: 0, of: 1 };

    /// The part that an array job gives to this task; everything outside of one. `variable` tells the value of an
    /// environment variable.
    ///
    /// # Errors
    /// Where the variables are there by half, or don't fit together.
    pub fn of_environment(variable: &dyn Fn(&str) -> Option<String>) -> Result<Self, PartError> {
        let Some(array) = ARRAYS.iter().find(|array| variable(array.task).is_some()) else {
            return Ok(Self::ALL);
        };
        let number = |name: &str| -> Result<Option<u64>, PartError> {
            let Some(text) = variable(name) else { return Ok(None) };
            text.trim()
                .parse()
                .map(Some)
                .map_err(|_| PartError(format!("{name} is `{text}`, which is no number: {ADVICE}")))
        };
        let task = number(array.task)?.unwrap_or(0);
        let Some(of) = number(array.tasks)? else {
            let Array { task, tasks, .. } = array;
            return Err(PartError(format!(
                "{task} is set, but not {tasks}: set {tasks} to the number of tasks, or {ADVICE}"
            )));
        };
        let (first, step) = match array.counted {
            Some((first, step)) => (number(first)?.unwrap_or(0), number(step)?.unwrap_or(1).max(1)),
            None => (0, 1),
        };
        let place = task.checked_sub(first).filter(|past| past % step == 0).map(|past| past / step);
        match place {
            Some(number) if number < of => Ok(Self { number, of }),
            _ => Err(PartError(format!(
                "{} is {task}, which is none of {of} tasks from {first} on: {ADVICE}",
                array.task
            ))),
        }
    }

    /// Whether a recording is in this part: for every digest, one of all parts has it.
    pub fn has(self, digest: &str) -> bool {
        // Sixteen digits are the first eight bytes; a digest is as good as random there.
        let head = digest.get(..16).and_then(|head| u64::from_str_radix(head, 16).ok());
        head.unwrap_or(0) % self.of == self.number
    }
}

/// What to do where the environment doesn't tell.
const ADVICE: &str = "give the part with --part K/N";

impl FromStr for Part {
    type Err = PartError;

    /// Reads `K/N`, with K from 1 to N.
    fn from_str(text: &str) -> Result<Self, PartError> {
        let numbers = text.split_once('/').and_then(|(k, n)| Some((k.parse().ok()?, n.parse().ok()?)));
        match numbers {
            Some((k, of)) if (1..=of).contains(&k) => Ok(Self { number: k - 1, of }),
            _ => Err(PartError("give K/N, with K from 1 to N, such as 2/8".to_owned())),
        }
    }
}

impl std::fmt::Display for Part {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}/{}", self.number + 1, self.of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::digest;

    fn told(variables: &[(&str, &str)]) -> Result<String, String> {
        let variable = |name: &str| {
            variables.iter().find(|(known, _)| *known == name).map(|(_, value)| (*value).to_owned())
        };
        Part::of_environment(&variable).map(|part| part.to_string()).map_err(|error| error.to_string())
    }

    #[test]
    fn array_jobs_tell_their_part() {
        let slurm = |id, min, step| {
            [
                ("SLURM_ARRAY_TASK_ID", id),
                ("SLURM_ARRAY_TASK_COUNT", "4"),
                ("SLURM_ARRAY_TASK_MIN", min),
                ("SLURM_ARRAY_TASK_STEP", step),
            ]
        };
        assert_eq!(told(&[]).unwrap(), "1/1");
        assert_eq!(told(&[("EAVESDRAFT_PARTS", "8")]).unwrap(), "1/1");
        assert_eq!(told(&[("JOB_COMPLETION_INDEX", "0"), ("EAVESDRAFT_PARTS", "8")]).unwrap(), "1/8");
        assert_eq!(told(&slurm("1", "1", "1")).unwrap(), "1/4");
        assert_eq!(told(&slurm("3", "0", "1")).unwrap(), "4/4");
        assert_eq!(told(&slurm("17", "11", "3")).unwrap(), "3/4");
        let batch = [("AWS_BATCH_JOB_ARRAY_INDEX", "2"), ("AWS_BATCH_JOB_ARRAY_SIZE", "3")];
        assert_eq!(told(&batch).unwrap(), "3/3");
    }

    #[test]
    fn variables_that_dont_fit_together_are_refused() {
        let lone = told(&[("JOB_COMPLETION_INDEX", "3")]).unwrap_err();
        assert!(lone.contains("EAVESDRAFT_PARTS"), "{lone}");
        for (index, parts) in [("8", "8"), ("x", "8"), ("0", "0"), ("0", ""), ("-1", "8")] {
            told(&[("JOB_COMPLETION_INDEX", index), ("EAVESDRAFT_PARTS", parts)]).unwrap_err();
        }
        // A task of an array whose numbers have gaps.
        let gap =
            [("SLURM_ARRAY_TASK_ID", "9"), ("SLURM_ARRAY_TASK_COUNT", "3"), ("SLURM_ARRAY_TASK_MIN", "1")];
        told(&gap).unwrap_err();
    }

    #[test]
    fn a_part_is_typed_as_k_of_n() {
        assert_eq!("2/8".parse::<Part>().unwrap().to_string(), "2/8");
        assert_eq!("1/1".parse::<Part>().unwrap(), Part::ALL);
        for wrong in ["0/8", "9/8", "1/0", "0/0", "2", "/", "2/8/9", "a/b", "", "-1/2"] {
            wrong.parse::<Part>().unwrap_err();
        }
    }

    proptest::proptest! {
        #[test]
        fn every_recording_is_in_exactly_one_part(bytes: Vec<u8>, of in 1..200_u64) {
            let digest = digest::of_bytes(&bytes);
            let having = (0..of).filter(|number| Part { number: *number, of }.has(&digest)).count();
            proptest::prop_assert_eq!(having, 1);
        }
    }
}
