"""`python -m layout`: the same as the command `shoulderline`."""

from layout.cli import main

if __name__ == "__main__":
    main()
