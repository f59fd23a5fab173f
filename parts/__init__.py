"""What the works makes, a folder a part; `plane` composes them, `commands` is the front door."""
