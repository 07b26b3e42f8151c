"""The same SQL over the same files on Apache Spark in local mode; run by `tests/long spark`. Needs Java 17 or newer."""

import pathlib
import sys
import tempfile

import pyspark
import season_sql
from pyspark.sql import SparkSession


def main():
    with tempfile.TemporaryDirectory(prefix="spark-") as name:
        folder = pathlib.Path(name)
        season_sql.make(folder)
        spark = (
            SparkSession.builder.master("local[2]").appName("season")
            .config("spark.ui.enabled", "false")
            .config("spark.sql.shuffle.partitions", "2")
            # A season such as 2026-27 is a name, no date and no sum.
            .config("spark.sql.sources.partitionColumnTypeInference.enabled", "false")
            .getOrCreate()
        )
        spark.sparkContext.setLogLevel("ERROR")
        for table in season_sql.TABLES:
            spark.read.parquet(str(folder / "export" / "parquet" / table)).createOrReplaceTempView(table)
        ask = lambda sql: [list(row) for row in spark.sql(sql).collect()]
        compared, differing = season_sql.compare(folder, ask)
        spark.stop()
    print(f"Apache Spark {pyspark.__version__}, local mode: {compared} rows of {len(season_sql.QUESTIONS)} tables compared")
    for question, rows in differing.items():
        print(f"{question} differs: {rows}")
    if not differing and compared > 40:
        print("every row is the office's own")
        return 0
    return 1


if __name__ == "__main__":
    sys.exit(main())
