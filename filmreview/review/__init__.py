"""What a person put down: the review model, its changes, and the one file they are kept in.

In: changes (a tag kept, a crew mark set ...). Out: an unchanging `Review` to read, its history, its findings. Read `model`
first, then `store`.
"""
