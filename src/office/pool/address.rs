//! From what a pool is called to where it is.

use super::PoolError;
use super::error::why;
use object_store::ObjectStore;
use object_store::local::LocalFileSystem;
use std::fs;
use std::path::Path;
use std::sync::Arc;

/// How the address of a bucket begins.
const BUCKET: &str = "s3://";

/// The store behind a pool's name. A folder is made where it is missing and `make` says so.
pub(super) fn store(pool: &str, make: bool) -> Result<Arc<dyn ObjectStore>, PoolError> {
    let odd = |why: &str| PoolError::Address { pool: pool.to_owned(), why: why.to_owned() };
    match pool.strip_prefix(BUCKET) {
        Some(place) => bucket(pool, place),
        None if pool.is_empty() => Err(odd("it has no name")),
        None if pool.contains("://") => Err(odd("only addresses with s3:// are known")),
        None => folder(pool, make),
    }
}

fn folder(pool: &str, make: bool) -> Result<Arc<dyn ObjectStore>, PoolError> {
    let path = Path::new(pool);
    if make {
        fs::create_dir_all(path)
            .map_err(|error| PoolError::File { file: path.to_owned(), why: error.to_string() })?;
    }
    if !path.is_dir() {
        return Err(PoolError::Missing(pool.to_owned()));
    }
    let store = LocalFileSystem::new_with_prefix(path)
        .map_err(|error| PoolError::Address { pool: pool.to_owned(), why: why(&error) })?;
    // What is told to be in the pool is there, even after the machine loses its power.
    Ok(Arc::new(store.with_fsync(true)))
}

/// Key, region, endpoint and whether plain HTTP will do come from the usual variables (`AWS_…`).
#[cfg(feature = "bucket")]
fn bucket(pool: &str, place: &str) -> Result<Arc<dyn ObjectStore>, PoolError> {
    use object_store::ClientConfigKey;
    use object_store::aws::{AmazonS3Builder, AmazonS3ConfigKey};
    use object_store::prefix::PrefixStore;
    let (bucket, folder) = place.split_once('/').unwrap_or((place, ""));
    let odd = |why: String| PoolError::Address { pool: pool.to_owned(), why };
    if bucket.is_empty() {
        return Err(odd("it names no bucket".to_owned()));
    }
    let mut builder = AmazonS3Builder::from_env().with_bucket_name(bucket);
    if std::env::var_os("AWS_TIMEOUT").is_none() {
        builder = builder.with_config(AmazonS3ConfigKey::Client(ClientConfigKey::Timeout), PATIENCE);
    }
    let store = builder.build().map_err(|error| odd(why(&error)))?;
    Ok(Arc::new(PrefixStore::new(store, folder)))
}

/// How long a request may take: a long recording takes its time over an office's line.
#[cfg(feature = "bucket")]
const PATIENCE: &str = "600 seconds";

#[cfg(not(feature = "bucket"))]
fn bucket(pool: &str, _place: &str) -> Result<Arc<dyn ObjectStore>, PoolError> {
    Err(PoolError::NoBuckets(pool.to_owned()))
}
